import { describe, expect, it } from 'vitest'
import { delays } from '../../bench/study/delays.ts'
import { byYear, falseFlags, stableOf } from '../../bench/study/falseFlags.ts'
import { figuresOf } from '../../bench/study/figures.ts'
import { kindOf } from '../../bench/study/kinds.ts'
import { leads } from '../../bench/study/leads.ts'
import { medianOf, medianRank } from '../../bench/study/median.ts'
import { BEGIN, END, figuresText, withFigures } from '../../bench/study/page.ts'
import { pictureOf } from '../../bench/study/picture/index.ts'
import { said } from '../../bench/study/readings.ts'
import { beyondNoise, firstSaying, heldByThree, runsOf } from '../../bench/study/runs.ts'
import { courseOf, simulated } from './simulated.ts'

const STABLE = courseOf('stable', 'serum, 25 g/L')
const RELAPSE = courseOf('relapse', 'relapse by serum')

describe('runs of samples', () => {
  it('count once each, and are confirmed where any sample is', () => {
    expect(runsOf('--uu-ucu--n')).toEqual([
      { from: 2, to: 3, confirmed: false },
      { from: 5, to: 7, confirmed: true },
      { from: 10, to: 10, confirmed: true },
    ])
  })

  it.each([
    ['three samples in a row', heldByThree, '-uccnu-ucu', '-uuccu-uuu'.replace('uuccu', 'uucnu')],
    ['a rise larger than noise', beyondNoise, 'unncu', 'uuucu'],
  ])('are read otherwise: %s', (_name, read, given, read_) => {
    expect(read(given)).toBe(read_)
  })

  it('are looked for from a sample on', () => {
    expect([firstSaying('u-uc', 'ucnm', 1), firstSaying('u-uc', 'cn', 0), firstSaying('u---', 'ucnm', 1)]).toEqual([2, 3, null])
  })
})

describe('a median', () => {
  // Ranks of the distribution-free 95 % interval of a median: binomial tables, e.g. n = 10: 2nd and 9th, n = 20: 6th and 15th, n = 50: 18th and 33rd.
  it.each([
    [5, 1],
    [6, 1],
    [10, 2],
    [20, 6],
    [50, 18],
    [100, 40],
  ])('of %i values has its lower end at rank %i', (count, rank) => {
    expect(medianRank(count)).toBe(rank)
  })

  it('keeps its rank for thousands of values near n/2 - 0.98 sqrt(n)', () => {
    expect(Math.abs(medianRank(4000) - (2000 - 0.98 * Math.sqrt(4000)))).toBeLessThan(1)
  })

  it('is told with its interval and quartiles, and what never came stands at the end', () => {
    const told = medianOf([Number.POSITIVE_INFINITY, 5, 1, 4, 2, 3, 6, 7, 8, 9])
    expect(told).toEqual({ count: 10, median: 5.5, low: 2, high: 9, quartiles: [3.25, 7.75] })
    expect(() => medianOf([])).toThrow('no median of nothing')
  })
})

describe('false flags', () => {
  // 27 samples, 26 intervals of 28 days: 728 days, all inside the first two years.
  const flagged = simulated(STABLE, 'pd-serum', `---uu--uc-${'-'.repeat(17)}`)
  const quiet = simulated(STABLE, 'pd-serum', '-'.repeat(27))

  it('are rates per 100 patient-years and shares of patients', () => {
    const told = falseFlags([flagged, quiet], said('pd-serum'))
    const years = (2 * 728) / 365.25
    expect(told.confirmed.per100).toBeCloseTo(100 / years, 10)
    expect(told.unconfirmed.events).toBe(1)
    expect(told.any.events).toBe(2)
    expect([told.everIn2.share, told.confirmedIn2.share]).toEqual([0.5, 0.5])
  })

  it('of a year are the runs that begin in it', () => {
    const late = simulated(STABLE, 'pd-serum', `${'-'.repeat(13)}uu${'-'.repeat(12)}`)
    expect(byYear([flagged, late], said('pd-serum'), 2).map(({ events }) => events)).toEqual([3, 0])
    const later = simulated(STABLE, 'pd-serum', `${'-'.repeat(14)}u${'-'.repeat(12)}`)
    expect(byYear([later], said('pd-serum'), 2).map(({ events }) => events)).toEqual([0, 1])
  })

  it('after two years are not ever in two years', () => {
    const late = simulated(STABLE, 'pd-serum', `${'-'.repeat(27)}uc`)
    expect(falseFlags([late], said('pd-serum'))).toMatchObject({ everIn2: { of: 0 }, confirmed: { events: 1 } })
  })
})

describe('a true crossing', () => {
  const crossing = { nadir: 60, day: 130, sustained: true }
  const at = (words: string) => ({ patient: simulated(RELAPSE, 'pd-serum', words, crossing), crossing })

  it('waits from its day to the first flag and to the first confirmation after it', () => {
    const told = delays([at('-----uc--')], said('pd-serum'))
    expect([told.toFlag.median, told.toConfirmed.median, told.byNth[0]?.share]).toEqual([140 - 130, 168 - 130, 1])
  })

  it('that was told before counts as told by the first sample where it still is', () => {
    const told = delays([at('----uuc--'), at('----u-uc-')], said('pd-serum'))
    expect([told.before.share, told.byNth[0]?.share, told.byNth[1]?.share]).toEqual([1, 0.5, 1])
  })

  it('that is never confirmed waits for ever', () => {
    const told = delays([at('-----uuuu')], said('pd-serum'))
    expect([told.toConfirmed.median, told.confirmedAtAll.share]).toEqual([Number.POSITIVE_INFINITY, 0])
  })

  it('is led by what was said after the nadir, in days and intervals', () => {
    const early = { patient: simulated(RELAPSE, 'projected-crossing', '-m-m-----', crossing), crossing }
    const patient = { ...early.patient, said: { ...early.patient.said, 'pd-serum': '-----uc--' } }
    const told = leads([{ patient, crossing }], said('projected-crossing'), said('pd-serum'))
    expect(told).toMatchObject({ first: { of: 1 }, daysWhereFirst: { median: 84 }, daysBeforeCrossing: { median: 130 - 84 } })
    expect(leads([{ patient, crossing }], said('significant-relapse'), said('pd-serum'))).toMatchObject({
      whereFirst: null,
      intervals: { median: 0 },
    })
  })
})

describe('the page and the picture', () => {
  const all = Array.from({ length: 540 }, (_, index) => {
    const { kind } = kindOf(index)
    const crossed = kind.family === 'stable' ? null : { nadir: 60, day: 130 + (index % 20) }
    const rule = kind.family === 'relapse' ? (`pd-${kind.by}` as const) : kind.family === 'escape' ? 'light-chain-escape' : 'pd-serum'
    return simulated(index, rule, (index % 7 === 0 ? '---------' : '-----uccc').padEnd(50, '-'), crossed)
  })
  const figures = figuresOf(all, 1)

  it('tell numbers everywhere', () => {
    expect(stableOf(all).length).toBe(324)
    for (const text of [figuresText(figures, '2026-11-25'), pictureOf(figures)]) expect(text).not.toMatch(/NaN|undefined|null/)
  })

  it('say which aim is met', () => {
    expect(figuresText(figures, '2026-11-25')).toMatch(/^- every true, sustained crossing flagged by the second sample after it: \*\*not met\*\*/m)
  })

  it('change nothing outside the marks', () => {
    expect(withFigures(`before\n${BEGIN}\nold\n${END}\nafter\n`, `${BEGIN} new ${END}`)).toBe(`before\n${BEGIN} new ${END}\nafter\n`)
  })

  it.each(['no marks', `${BEGIN} open`, `${BEGIN} ${END} ${BEGIN} ${END}`])('refuse a page with %s', (page) => {
    expect(() => withFigures(page, 'new')).toThrow('once each')
  })

  it('draw one well-formed document of six panels', () => {
    const svg = pictureOf(figures)
    const opened = [...svg.matchAll(/<(svg|title|text)\b/g)].length
    expect([...svg.matchAll(/<\/(svg|title|text)>/g)].length).toBe(opened)
    expect([...svg.matchAll(/font-weight="bold" fill="#1a1a1a">([A-F]) {2}/g)].map(([, letter]) => letter)).toEqual(['A', 'B', 'C', 'D', 'E', 'F'])
  })
})
