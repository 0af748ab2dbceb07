import { describe, expect, it } from 'vitest'
import { TRUE_CRITERIA, trueCrossing, trulyMeets } from '../../bench/study/crossing.ts'
import { calendarDay, historyOf } from '../../bench/study/historyOf.ts'
import { INTERVALS, kindOf, STABLE_KINDS } from '../../bench/study/kinds.ts'
import { type Simulated, simulateAll, simulateCourse } from '../../bench/study/simulate.ts'
import { drawCourse, type TrueCourse } from '../../bench/study/trueCourse.ts'
import { missingRules, PD_RULES, planEvery, STUDIED, watch } from '../../bench/study/watched.ts'
import { RULE_IDS } from '../../lib/rules/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { type Chance, chancesFrom, sampled, type Truth } from '../../seed/index.ts'

const chance = (seed: number): Chance => chancesFrom(seed).next().value
const noiseless = (truth: Truth): Truth => truth

describe('the true criterion', () => {
  it.each([
    ['pd-serum', 10, 14.9, false, 'one step below 5 g/L'],
    ['pd-serum', 10, 15, true, 'on 5 g/L'],
    ['pd-serum', 30, 36, false, '20 %'],
    ['pd-serum', 30, 37.5, true, '25 %'],
    ['pd-serum', 50, 60, true, '10 g/L from 50 g/L on, though 20 %'],
    ['pd-serum', 49.9, 59.9, false, '10 g/L from just below 50 g/L'],
    ['pd-urine', 300, 499, false, 'one step below 200 mg/24 h'],
    ['pd-urine', 300, 500, true, 'on 200 mg/24 h'],
    ['pd-light-chain', 80, 180, false, 'on 100 mg/L, which is not more than it'],
    ['pd-light-chain', 80, 181, true, 'above 100 mg/L'],
    ['pd-light-chain', 800, 950, false, 'above 100 mg/L, but not 25 %'],
  ] as const)('%s from %f: %f is %s, %s', (rule, reference, value, met, _why) => {
    expect(trulyMeets(TRUE_CRITERIA[rule], reference, value)).toBe(met)
  })
})

describe('the true crossing', () => {
  const serum = (valueOn: (day: number) => number) =>
    trueCrossing({ days: 400, on: (day) => ({ 'serum-m-protein': valueOn(day) }) }, TRUE_CRITERIA['pd-serum'])

  it('is the first day at the level above the lowest value, and tells the day of that one', () => {
    // 10 g/L on days 100 and 101, 15 g/L on day 151.
    expect(serum((day) => (day <= 100 ? 40 - day * 0.3 : 10 + (day - 101) * 0.1))).toEqual({ nadir: 101, day: 151, sustained: true })
  })

  it('is not sustained where the truth falls again', () => {
    expect(serum((day) => (day < 50 ? 10 : day < 90 ? 16 : 10))).toMatchObject({ day: 50, sustained: false })
  })

  it('does not rest on a lowest value that stood one day', () => {
    expect(serum((day) => (day === 20 ? 4 : 10))).toBeNull()
  })

  it('is none where nothing changes', () => {
    expect(serum(() => 55)).toBeNull()
  })
})

describe('courses', () => {
  it('are of every stable kind at every interval, equally often', () => {
    const met = new Map<string, number>()
    for (let index = 0; index < 540; index += 1) {
      const { kind, every } = kindOf(index)
      const key = `${kind.name} ${every}`
      met.set(key, (met.get(key) ?? 0) + 1)
    }
    const counts = STABLE_KINDS.flatMap(({ name }) => INTERVALS.map((every) => met.get(`${name} ${every}`)))
    expect(new Set(counts)).toEqual(new Set([6]))
  })

  it('are the same for the same seed, however parted, and others for another', () => {
    const whole = [...simulateAll(10, 5)]
    const parts = [0, 1].map((part) => [...simulateAll(10, 5, part, 2)])
    expect(whole.map((_, index) => parts[index % 2]?.[Math.floor(index / 2)])).toEqual(whole)
    const days = (all: readonly Simulated[]) => all.map((one) => one.days)
    expect(days([...simulateAll(10, 6)])).not.toEqual(days(whole))
  })

  it.each([2, 9, 13])('are told what an assessment of each day tells: course %i', (index) => {
    const draws = chance(index)
    const course = drawCourse(kindOf(index).kind, draws)
    const days = Array.from({ length: 24 }, (_, nth) => nth * 56)
    const history = historyOf(
      course,
      days.map((on) => ({ on, values: sampled(course.on(on), draws) })),
    )
    const { said, times } = watch(history, days, 56)
    expect(Object.values(said).join('')).toMatch(/[uc]/)
    for (const [at, on] of days.entries()) {
      const { findings } = assess(history, planEvery(56), calendarDay(on))
      const current = findings.map(({ rule }) => rule as string)
      expect(STUDIED.filter((rule) => said[rule][at] !== '-')).toEqual(STUDIED.filter((rule) => current.includes(rule)))
      const hastened = findings.filter(({ state, window }) => state === 'unconfirmed' && window === 'within-7-days').map(({ rule }) => rule as string)
      expect(PD_RULES.filter((rule) => (times[rule][at] ?? 0) >= 2)).toEqual(PD_RULES.filter((rule) => hastened.includes(rule)))
    }
  })

  it('find every studied rule the door has', () => {
    expect(missingRules().filter((rule) => (RULE_IDS as readonly string[]).includes(rule))).toEqual([])
  })
})

describe('without variation', () => {
  it.each(STABLE_KINDS.map((kind) => ({ kind, name: kind.name })))('a stable patient is never flagged: $name', ({ kind }) => {
    const { said, byLowest, bySetting, days } = simulateCourse(kind, 84, drawCourse(kind, chance(1)), chance(2), noiseless)
    const silent = '-'.repeat(days.length)
    expect(days.length).toBeGreaterThan(15)
    expect(new Set([...Object.values(said), ...Object.values(byLowest), ...bySetting])).toEqual(new Set([silent]))
  })

  /** Falls for 84 days, rests until day 400, then rises by `perDay`; all other markers stay where nothing counts. */
  const rising = (analyte: 'serum-m-protein' | 'urine-m-protein' | 'kappa-flc', from: number, rest: number, perDay: number): TrueCourse => {
    const value = (day: number) => (day <= 84 ? from + ((rest - from) * day) / 84 : rest + Math.max(0, day - 400) * perDay)
    const urineSampled = analyte === 'urine-m-protein'
    return {
      heavy: analyte === 'serum-m-protein' ? 'G' : 'none',
      urineSampled,
      days: 2000,
      on: (day) => ({
        'serum-m-protein': 0,
        ...(urineSampled ? { 'urine-m-protein': 0 } : {}),
        'kappa-flc': 15,
        'lambda-flc': 12,
        [analyte]: value(day),
      }),
    }
  }
  const RELAPSES = [
    ['serum', 'pd-serum', rising('serum-m-protein', 40, 8, 0.2)],
    ['urine', 'pd-urine', rising('urine-m-protein', 900, 100, 8)],
    ['light-chain', 'pd-light-chain', rising('kappa-flc', 1500, 60, 4)],
  ] as const

  it.each(RELAPSES.flatMap(([by, rule, course]) => INTERVALS.map((every) => ({ by, rule, course, every }))))(
    'a relapse by $by is flagged by the first sample after its true crossing and confirmed by the second, every $every days',
    ({ by, rule, course, every }) => {
      for (const seed of [1, 2, 3]) {
        const found = simulateCourse({ family: 'relapse', name: by, by }, every, course, chance(seed), noiseless)
        const crossedOn = found.crossings[rule]?.day ?? Number.NaN
        const first = found.days.findIndex((day) => day >= crossedOn)
        expect(first).toBeGreaterThan(3)
        expect(found.said[rule].slice(0, first + 2)).toBe(`${'-'.repeat(first)}uc`)
      }
    },
  )
})
