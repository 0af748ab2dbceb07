import { describe, expect, test } from 'vitest'
import { assessResponse } from '../../lib/models/index.ts'
import { type HistoryWords, type ResultRow, series } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

const START = '2020-01-01'
const months = (...values: string[]): Record<string, string> =>
  Object.fromEntries(values.map((value, at) => [`2020-${String(at + 1).padStart(2, '0')}-01`, value]))
const serum = (...values: string[]) => series('serum-m-protein', 'g/L', months(...values))
const urine = (...values: string[]) => series('urine-m-protein', 'mg/(24.h)', months(...values))
const response = (results: readonly ResultRow[], more: HistoryWords) =>
  assessResponse(courseOf({ diagnosis: [START, 'active', { heavy: 'G', light: 'lambda' }], lines: [{ start: START }], results, ...more }))

describe('a band that may be a therapeutic antibody (IMWG 2016; the drug shows as IgG kappa)', () => {
  const fixed = (text: string, protein: string): ResultRow[] => [
    ...serum('40', '1', protein),
    ...urine('0', '0', '0'),
    ['2020-03-01', 'serum-immunofixation', text],
    ['2020-03-01', 'urine-immunofixation', 'negative'],
  ]
  const marrow: HistoryWords['marrow'] = [['2020-03-01', '2']]
  const on = (regimen: readonly string[]): HistoryWords => ({ marrow, lines: [{ start: START, regimen }] })
  const open = { category: 'VGPR', provisional: true, missing: ['serum immunofixation shows IgG kappa, which may be daratumumab'] }
  const no = { category: 'VGPR', provisional: false, missing: [] }

  // Up to 2 g/L electrophoresis may show the drug alone (from memory).
  test.each<[string, string, string, readonly string[], object]>([
    ['beside no M-protein stands neither for nor against a complete response', 'faint IgG kappa', 'not detected', ['daratumumab'], open],
    ['beside 2 g/L too', 'IgG kappa', '2', ['daratumumab'], open],
    ['beside 2.1 g/L is more than the drug', 'IgG kappa', '2.1', ['daratumumab'], no],
    ['of another type is no drug', 'IgG lambda', 'not detected', ['daratumumab'], no],
    ['beside a band of another type is not the only one', 'IgG kappa and IgG lambda', 'not detected', ['daratumumab'], no],
    ['without such a drug stands against it', 'IgG kappa', 'not detected', ['bortezomib'], no],
  ])('a band %s', (_, text, protein, regimen, expected) => {
    expect(response(fixed(text, protein), on(regimen))).toMatchObject(expected)
  })

  test('negative on the drug is a complete response as ever', () => {
    expect(response(fixed('negative', 'not detected'), on(['daratumumab']))).toMatchObject({ category: 'CR', missing: [] })
  })
})
