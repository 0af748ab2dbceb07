import { describe, expect, it } from 'vitest'
import { type Comparison, compareDays } from '../../lib/look/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history, series } from '../builders/history.ts'

function compared(words: HistoryWords, from: string, to: string): Comparison {
  const known = history(words)
  return compareDays(assess(known, DEFAULT_PLAN, day(from)), assess(known, DEFAULT_PLAN, day(to)))
}

const serum = (values: Readonly<Record<string, string>>) => series('serum-m-protein', 'g/L', values)
const COURSE: HistoryWords = { diagnosis: ['2024-01-01', 'active', { heavy: 'G', light: 'kappa' }], lines: [{ start: '2024-01-10' }] }

describe('two days side by side', () => {
  it.each([
    ['exact', '10', '12.5', { absolute: '+2.5', percent: '+25.0', why: null }],
    ['a fall', '40', '10', { absolute: '-30', percent: '-75.0', why: null }],
    ['no change', '10', '10', { absolute: '0', percent: '0.0', why: null }],
    ['what binary fractions miss', '1.8', '2.3', { absolute: '+0.5', percent: '+27.8', why: null }],
    ['an earlier value of 0', 'not detected', '2', { absolute: '+2', percent: null, why: 'earlier value not detected' }],
    ['an earlier limit', '<1', '3', { absolute: '+2 to +3', percent: null, why: 'a value was reported as a limit: a range' }],
    ['a later limit', '10', '>50', { absolute: 'at least +40', percent: null, why: 'a value was reported as a limit: a range' }],
    ['no upper end before', '>50', '10', { absolute: null, percent: null, why: 'the earlier value has no upper end' }],
  ] as const)('%s: %s, then %s', (_, before, after, change) => {
    const { markers } = compared({ ...COURSE, results: serum({ '2024-02-01': before, '2024-03-01': after }) }, '2024-02-01', '2024-03-01')
    expect(markers.find(({ name }) => name === 'serum M-protein')?.change).toEqual(change)
  })

  it('takes the latest value by each day, and says its day; the same sample is no change', () => {
    const { markers } = compared({ ...COURSE, results: serum({ '2024-01-05': '40' }) }, '2024-02-10', '2024-03-10')
    expect(markers[0]).toMatchObject({ from: { text: '40 g/L', on: '2024-01-05' }, to: { on: '2024-01-05' }, change: { why: 'the same sample' } })
  })

  it('a marker that came later has no earlier value, and one that is still to come is not there', () => {
    const later = compared({ ...COURSE, results: serum({ '2024-03-01': '12' }) }, '2024-02-01', '2024-03-10')
    expect(later.markers[0]).toMatchObject({ from: null, to: { text: '12 g/L' }, change: { why: 'not measured by both days' } })
    expect(compared({ ...COURSE, results: serum({ '2024-03-01': '12' }) }, '2024-02-01', '2024-02-10').markers).toEqual([])
  })

  it('tells phase, care, line, response and window of each day, and which findings came and went', () => {
    const words: HistoryWords = {
      ...COURSE,
      lines: [{ start: '2024-01-10', end: '2024-08-15' }],
      results: serum({ '2024-01-05': '40', '2024-03-01': '10', '2024-04-01': '10', '2024-08-01': '15', '2024-09-01': '12' }),
    }
    const rise = compared(words, '2024-04-02', '2024-08-02')
    expect(rise.from).toMatchObject({ on: '2024-04-02', phase: 'active', care: 'on-treatment', response: 'PR, confirmed, provisional' })
    expect(rise.appeared.map(({ rule }) => rule)).toContain('pd-serum')
    expect(rise.to.response).toBe('PD, unconfirmed')
    const fall = compared(words, '2024-08-02', '2024-09-02')
    expect(fall.to.care).toBe('off-treatment')
    expect(fall.ended.map(({ rule }) => rule)).toContain('pd-serum')
  })
})
