import { describe, expect, test } from 'vitest'
import { onTimeChart, onTimeFile } from '../../../lib/charts/index.ts'
import { type Figures, monthChart } from '../../../lib/followup/index.ts'
import { wilsonInterval } from '../../../lib/statistics/index.ts'
import { day } from '../../../lib/time/index.ts'
import { cautionedTable } from '../../../lib/usecases/export/exportedFile.ts'
import { figures } from '../../followup/worked.ts'
import reference from '../../published/reference/stats_spc.json' with { type: 'json' }
import { oneBadMonth, overdispersed, steady } from './twoYears.ts'

const { nist_p_chart: nist, laney_p_prime: laney } = reference

/** Figures of months from the first of a year on, each so many of so many. */
function months(samples: readonly (readonly [onTime: number, due: number])[], planChanges: Figures['planChanges'] = []) {
  const names = samples.map((_, at) => `${2024 + Math.floor(at / 12)}-${String((at % 12) + 1).padStart(2, '0')}`)
  const tallies = new Map(samples.map(([onTime, due], at) => [names[at] ?? '', { due, onTime, late: due - onTime, missed: 0, daysLate: [] }]))
  const [from, to] = [day('2024-01-01'), day(`${names.at(-1)}-28`)]
  const due = samples.reduce((sum, [, of]) => sum + of, 0)
  const onTime = samples.reduce((sum, [count]) => sum + count, 0)
  const wilson95 = due === 0 ? null : wilsonInterval(onTime, due)
  const whole = { due, onTime, late: due - onTime, missed: 0, proportion: due === 0 ? null : onTime / due, wilson95 }
  return { from, to, chart: monthChart(from, to, tallies), onTime: whole, pending: 0, planChanges }
}

const plain = (text: string): string => text.replaceAll('\u00a0', ' ')

describe('the wafers of NIST as months (e-Handbook 6.3.3.2)', () => {
  const wafers = months(nist.counts.map((count) => [count, nist.n_per_sample]))
  const chart = onTimeChart(wafers)

  test('limits 0.0524 and 0.4102 all along, samples 15 and 23 out and no other', () => {
    const { limits, points, centre } = chart.picture ?? expect.unreachable()
    expect([...new Set(limits.low.map(({ share }) => share.toFixed(4)))]).toEqual(['0.0524'])
    expect([...new Set(limits.high.map(({ share }) => share.toFixed(4)))]).toEqual(['0.4102'])
    expect([limits.low.length, limits.low[0]?.from, limits.low.at(-1)?.to]).toEqual([30, 0, 100])
    expect(centre).toBeCloseTo(nist.pbar, 12)
    expect(points.flatMap(({ signal }, at) => (signal === null ? [] : [at + 1]))).toEqual([15, 23])
  })

  // Their own months vary by more than chance: sigma z of the reference, with 1.128 for 2 / sqrt(pi).
  test('the sentence names both, and says that none stands out among wafers that vary so much', () => {
    expect(plain(chart.sentence)).toBe(
      '23.1 % of tests were done on time (347 of 1500); 2 of 30 months, 2025-03 and 2025-11, lie beyond what chance alone explains, but months vary so much here that none stands out.',
    )
    const sigmaZ = (reference.laney_on_nist.sigma_z * reference.laney_on_nist.d2) / 1.128
    expect(chart.notes.join(' ')).toContain(`sigma z ${sigmaZ.toFixed(2)}; chance seldom gives more than 1.28`)
    expect(chart.picture?.points.some(({ standsOut }) => standsOut)).toBe(false)
  })

  test('the table says which limit, the file has the numbers', () => {
    expect(chart.table?.rows.filter((row) => row.at(-1) !== '').map((row) => [row[0], row.at(-1)])).toEqual([
      ['2025-03', 'above the limit of chance alone'],
      ['2025-11', 'above the limit of chance alone'],
    ])
    const { columns, rows } = onTimeFile(wafers)
    const text = cautionedTable('chart.csv', 'About.', columns, rows).text
    expect(text).toContain('"2025-03","50","22","0.4400","0.3116","0.5769","0.2313","0.0524","0.4102","","0.5285","above","no"')
  })
})

// Laney, Quality Engineering 2002;14:531, by the formula in R 4.2.2; samples of tens of thousands, which the plain chart signals for their mere size.
test('months that vary more than chance makes them are held against the wider limits of Laney too', () => {
  const samples = laney.d2_exact_2_over_sqrt_pi.points
  const wide = months(samples.map(({ x, n }) => [x, n]))
  const { picture, notes, table } = onTimeChart(wide)
  const where = (is: (point: NonNullable<typeof picture>['points'][number]) => boolean) =>
    picture?.points.flatMap((point, at) => (is(point) ? [at] : []))
  expect(where(({ standsOut }) => standsOut)).toEqual(samples.flatMap(({ signal }, at) => (signal ? [at] : [])))
  expect(where(({ signal }) => signal !== null)).toEqual(samples.flatMap((sample, at) => (sample.p_chart_signal ? [at] : [])))
  expect(picture?.wide.low.length).toBe(samples.length)
  expect(notes.join(' ')).toContain("so wider limits are drawn besides, Laney's p'")
  expect(table?.columns).toContain('Wider limits')
})

describe('two invented years', () => {
  test('one bad month is told, and does not widen the limits by itself', () => {
    const told = onTimeChart(months([...new Array(12).fill([84, 100]), [50, 100], ...new Array(11).fill([85, 100])]))
    expect(plain(told.sentence)).toMatch(
      /^In 2025-01 \(50 of 100, 50\.0 %\) fewer tests were on time than chance explains; over all 24 months it was \d/,
    )
    expect(told.picture?.wide.low).toEqual([])
    expect(onTimeChart(oneBadMonth()).picture?.points.filter(({ standsOut }) => standsOut)).toMatchObject([{ month: '2025-08', signal: 'below' }])
  })

  test('steady ones say so; tests of a visit that go together do not make months stand out', () => {
    expect(plain(onTimeChart(steady()).sentence)).toMatch(
      /^8\d\.\d % of tests were done on time \(\d+ of \d+\), and no month of 24 differs from that by more than/,
    )
    expect(plain(onTimeChart(overdispersed()).sentence)).toMatch(
      /4 of 24 months, 2024-10.* beyond what chance alone explains, but months vary so much here that none/,
    )
  })

  test('a change of the plan stands on the axis at its day, in the notes and in the table', () => {
    const { picture, notes, table } = onTimeChart(oneBadMonth())
    // 2025-10-01 is where the 16th of 24 months begins.
    expect(picture?.months.changes).toEqual([{ at: 62.5, label: 'plan 2', row: 0 }])
    expect(notes).toContain('Here the plan was changed: version 2 from 2025-10-01. The limits do not know of it.')
    const three = [...oneBadMonth().planChanges, { version: '3', from: day('2025-12-16') }, { version: '4', from: day('2026-06-01') }]
    const marks = onTimeChart({ ...oneBadMonth(), planChanges: three }).picture?.months.changes
    // Labels near each other stand in rows: 16 December is halfway through the 18th month, 15 of 31 days.
    expect(marks?.map(({ at, row }) => [at, row])).toEqual([
      [62.5, 0],
      [72.85, 1],
      [95.83, 0],
    ])
    expect(table?.rows.find(([month]) => month === '2025-10')?.at(-1)).toBe('plan 2 from 2025-10-01')
  })

  test('points stand in the middle of their months, limits step with what was due, months have names', () => {
    const { picture } = onTimeChart(oneBadMonth())
    expect([picture?.points[0]?.at, picture?.points.at(-1)?.at]).toEqual([2.08, 97.92])
    expect(new Set(picture?.limits.low.map(({ share }) => share)).size).toBeGreaterThan(15)
    expect(picture?.months.ticks.narrow.map(({ label, year }) => [label, year])).toEqual([
      ['Jul', '2024'],
      ['Jan', '2025'],
      ['Jul', null],
      ['Jan', '2026'],
    ])
    for (const { share, low, high } of picture?.points ?? []) expect(low < share && share < high).toBe(true)
  })
})

describe('with little to go by', () => {
  // docs/follow-up.md: 2026-02 8 of 12, limits 0.468 to 1.000, which is cut and so not drawn.
  test('the clinic of six: January is a gap, limits that no share can exceed are none, and it says how rough they are', () => {
    const { picture, sentence, notes, table } = onTimeChart(figures())
    expect(plain(sentence)).toBe('80.9 % of tests were done on time (38 of 47), and no month of 5 differs from that by more than chance explains.')
    expect(picture?.points.map(({ month }) => month)).toEqual(['2026-02', '2026-03', '2026-04', '2026-05', '2026-06'])
    expect(picture?.limits.low[0]).toMatchObject({ from: 16.67, to: 33.33 })
    expect(picture?.limits.low[0]?.share.toFixed(3)).toBe('0.468')
    expect(picture?.limits.high).toEqual([])
    expect(notes).toContain('Limits from 5 months are rough; from about 20 on they are firm.')
    expect(table?.rows.slice(0, 2).map((row) => row.map(plain))).toEqual([
      ['2026-01', '0', '0', '-', '-', '-', ''],
      ['2026-02', '12', '8', '66.7 %', '39.1 to 86.2 %', 'from 46.8 %', ''],
    ])
  })

  test.each([
    ['no month', [], 'No test was due in this period, so there is nothing to draw.'],
    [
      'months in which nothing was due',
      [
        [0, 0],
        [0, 0],
      ],
      'No test was due in this period, so there is nothing to draw.',
    ],
    ['one month', [[8, 12]], '66.7 % of tests were done on time (8 of 12), all due in one month, 2024-01: one month cannot be held against others.'],
    [
      'all on time',
      [
        [4, 4],
        [9, 9],
      ],
      'All 13 tests due in 2 months were done on time: nothing varies, so nothing is drawn.',
    ],
    [
      'none on time',
      [
        [0, 4],
        [0, 1],
      ],
      'None of 5 tests due in 2 months was done on time: nothing varies, so nothing is drawn.',
    ],
  ] as const)('%s: words instead of a picture', (_, samples, says) => {
    const { sentence, picture } = onTimeChart(samples.length === 0 ? { ...months([[0, 0]]), chart: { points: [], sigmaZ: null } } : months(samples))
    expect([plain(sentence), picture]).toEqual([says, null])
  })

  test('a period that begins or ends within a month says so', () => {
    const part = {
      ...months([
        [8, 12],
        [9, 12],
        [12, 12],
      ]),
      from: day('2024-01-15'),
      to: day('2024-03-31'),
    }
    expect(onTimeChart(part).notes).toContain('Only part of 2024-01 lies within the period.')
  })
})
