import { describe, expect, test } from 'vitest'
import { latenessChart, latenessFile } from '../../../lib/charts/index.ts'
import { lateBins } from '../../../lib/followup/lateBins.ts'
import { spreadOf } from '../../../lib/followup/spread.ts'
import { figures } from '../../followup/worked.ts'
import { oneBadMonth } from './twoYears.ts'

const whole = { due: 100, onTime: 90, late: 10, missed: 0, proportion: 0.9, wilson95: [0.8, 0.95] as const }
const late = (days: readonly number[], missed = 0) => ({ lateness: spreadOf(days), lateBins: lateBins(days), onTime: { ...whole, missed } })

describe('how late the late tests were', () => {
  test('the clinic of six: 35 days four times and 47 once', () => {
    const { sentence, picture, notes, table } = latenessChart(figures())
    expect(sentence).toBe('Half of the late tests were done within 35 days after their due day, nine of ten within 42.2.')
    expect(picture?.bars).toEqual([
      { from: 0, to: 50, count: 0, open: false, label: '0 to 27 days' },
      { from: 50, to: 100, count: 5, open: false, label: '28 to 55 days' },
    ])
    // 35 of 56, and 42.2 of 56.
    expect(picture?.marks.map(({ kind, at }) => [kind, at])).toEqual([
      ['median', 62.5],
      ['p90', 75.36],
    ])
    expect(notes).toContain('Not in the picture: 4 missed tests, which have no day.')
    expect(table?.rows.map((row) => row.slice(0, 2))).toEqual([
      ['0 to 27 days', '0'],
      ['28 to 55 days', '5'],
    ])
  })

  test('two years: bars side by side, as wide as each other, an open one at the end, none of one to four tests', () => {
    const told = oneBadMonth()
    const { picture, table } = latenessChart(told)
    const bars = picture?.bars ?? []
    expect(bars.length).toBeGreaterThan(6)
    expect(bars.map(({ open }) => open).indexOf(true)).toBe(bars.length - 1)
    bars.forEach(({ from, to, count }, at) => {
      expect(from).toBe(at === 0 ? 0 : bars[at - 1]?.to)
      expect(to - from).toBeCloseTo(100 / bars.length, 1)
      expect(count === 0 || count >= 5).toBe(true)
    })
    expect(bars.reduce((sum, { count }) => sum + count, 0)).toBe(told.onTime.late)
    expect(Math.max(...bars.map(({ count }) => count))).toBeLessThanOrEqual(picture?.most ?? 0)
    expect(table?.rows.at(-1)?.[0]).toMatch(/^\d+ days or more$/)
    expect(picture?.days.at(-1)).toMatchObject({ at: 100, label: table?.rows.at(-1)?.[0]?.replace(' days', '') })
  })

  test('a mark beyond the last edge stands in the open bar, and its words have the number', () => {
    const { picture } = latenessChart(late([...new Array(60).fill(10), ...new Array(12).fill(17), 300, 310, 320, 330, 340, 350, 360, 370, 380, 390]))
    const open = picture?.bars.at(-1)
    expect(open?.open).toBe(true)
    const [, p90] = picture?.marks ?? []
    expect(p90?.at).toBeCloseTo(((open?.from ?? 0) + (open?.to ?? 0)) / 2, 1)
    expect(p90?.label).toMatch(/^nine of ten within 3\d\d/)
  })

  test('the file says the days of each bin, the open one without an end', () => {
    const { columns, rows } = latenessFile(late([8, 8, 8, 8, 8, 16, 16, 16, 16, 16, 40, 41, 42]))
    expect(rows.map((row) => columns.map(([, cellOf]) => cellOf(row)))).toEqual([
      [0, 6, 0, '0.0000'],
      [7, 13, 5, '0.3846'],
      [14, null, 8, '0.6154'],
    ])
  })

  test.each([
    ['nothing due', { ...late([]), onTime: { ...whole, due: 0 } }, 'No test was due in this period, so none was late.'],
    ['none late', late([]), 'No test was done late.'],
    ['none late, some missed', late([], 3), 'No test was done late; 3 were missed.'],
    ['one late', late([9]), 'Only 1 test was done late: too few to show by days without showing whose they were.'],
    ['four late', late([9, 9, 9, 9]), 'Only 4 tests were done late: too few to show by days without showing whose they were.'],
  ])('%s: words instead of a picture', (_, given, says) => {
    const { sentence, picture, table } = latenessChart(given)
    expect([sentence, picture, table]).toEqual([says, null, null])
  })
})
