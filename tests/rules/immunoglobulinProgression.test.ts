import { describe, expect, test } from 'vitest'
import { assessResponse } from '../../lib/models/index.ts'
import { says } from '../../lib/rules/index.ts'
import { repeatsFor } from '../../lib/standing/repeats.ts'
import type { HistoryWords, ResultMore } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'
import { active, every4Weeks } from './patients.ts'
import { currentBy } from './ruleTable.ts'

const A: HistoryWords = { diagnosis: ['2024-06-01', 'active', { heavy: 'A', light: 'kappa' }] }
const D: HistoryWords = { diagnosis: ['2024-06-01', 'active', { heavy: 'D', light: 'lambda' }] }
const iga = (values: string[], unit = 'g/L', more: ResultMore = {}) => every4Weeks('iga', unit, values, more)
const serum = (values: string[]) => every4Weeks('serum-m-protein', 'g/L', values)
const progression = (words: HistoryWords) => currentBy('pd-serum', words)
const slow = { state: 'unconfirmed', window: 'within-30-days', certainty: 'certain' }
const sure = { state: 'confirmed', window: 'within-7-days', certainty: 'certain' }

describe('pd-serum by quantitative immunoglobulin (IMWG 2016; Dispenzieri, Leukemia 2009;23:215)', () => {
  test.each<[string, HistoryWords, object]>([
    ['on 25 % and 5 g/L, once', active(iga(['20', '20', '25']), A), { ...slow, cautions: ['one-sample'] }],
    ['printed in mg/dL', active(iga(['2000', '2000', '2500'], 'mg/dL'), A), slow],
    ['a step above', active(iga(['20', '20', '25.01']), A), slow],
    ['twice in a row', active(iga(['20', '20', '25', '25']), A), { ...sure, since: '2024-07-29', cautions: [] }],
    ['from 50 on, 10 g/L though 20 %', active(iga(['50', '50', '60']), A), slow],
    ['twice the minimum and doubled is hastened', active(iga(['10', '10', '20']), A), { state: 'unconfirmed', window: 'within-7-days' }],
    ['electrophoresis one step below measurable', active([...serum(['9.9']), ...iga(['20', '20', '25'])], A), slow],
    ['electrophoresis in words only', active([...serum(['trace']), ...iga(['20', '20', '25'])], A), slow],
    ['IgD in mg/L: on 25 % and 5000 mg/L', active(every4Weeks('igd', 'mg/L', ['8000', '8000', '13000']), D), slow],
    ['IgD: from 50000 mg/L on, 10000 mg/L', active(every4Weeks('igd', 'mg/L', ['50000', '50000', '60000']), D), slow],
  ])('fires: %s', (_, words, expected) => {
    expect(progression(words)).toMatchObject([expected])
  })

  test.each<[string, HistoryWords]>([
    ['a step below 5 g/L', active(iga(['20', '20', '24.99']), A)],
    ['5 g/L from 21 is no 25 %', active(iga(['21', '21', '26']), A)],
    ['from 50, 9.99 g/L', active(iga(['50', '50', '59.99']), A)],
    ['electrophoresis measured the protein at baseline', active([...serum(['10', '10', '10']), ...iga(['20', '20', '30', '30'])], A)],
    ['IgD a step below 5000 mg/L', active(every4Weeks('igd', 'mg/L', ['8000', '8000', '12999']), D)],
    ['IgA that recovers beside an IgG protein', active(iga(['0.5', '0.5', '6', '6']))],
    ['smouldering', { diagnosis: ['2024-06-01', 'smouldering', { heavy: 'A', light: 'kappa' }], results: iga(['20', '20', '30', '30']) }],
  ])('quiet: %s', (_, words) => {
    expect(progression(words)).toEqual([])
  })

  test('evidence and words name the immunoglobulin, never electrophoresis', () => {
    const [found] = progression(active([...serum(['4', '4', '4']), ...iga(['20', '20', '26'])], A))
    expect(found?.evidence.map(({ role, analyte, value, unit }) => [role, analyte, value, unit])).toEqual([
      ['reference', 'iga', '20', 'g/L'],
      ['current', 'iga', '26', 'g/L'],
    ])
    expect(found === undefined ? '' : says(found)).toBe(
      'Quantitative IgA 26 g/L on 2024-07-29 is 6 g/L (30 %) above the lowest value 20 g/L of 2024-06-03; criterion: rise of at least 25 % and 5 g/L, or of at least 10 g/L from 50 g/L or more. Second sample not yet there. By quantitative IgA, which includes normal IgA: electrophoresis did not measure the protein at baseline.',
    )
    expect(repeatsFor(found === undefined ? [] : [found])).toMatchObject([{ group: 'immunoglobulins', sampledOn: '2024-07-29' }])
  })

  test('the two series are never mixed: neither lowest value is taken for the other', () => {
    const found = progression(active([...serum(['8', '2', '7.5']), ...iga(['20', '12', '13'])], A))
    expect(found.map(({ evidence }) => evidence[0]?.analyte)).toEqual(['serum-m-protein'])
  })

  test('another laboratory carries the caution', () => {
    const given = active([...iga(['20', '20']), ...iga(['', '', '26'], 'g/L', { laboratory: 'South laboratory' })], A)
    expect(progression(given)).toMatchObject([{ cautions: ['one-sample', 'method-changed'] }])
  })

  test('light-chain escape is quiet while the immunoglobulin says it', () => {
    const urine = every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '100', '100'])
    const chains = [...every4Weeks('kappa-flc', 'mg/L', ['90', '90', '191']), ...every4Weeks('lambda-flc', 'mg/L', ['10', '10', '10'])]
    expect(currentBy('light-chain-escape', active([...urine, ...chains, ...iga(['20', '10', '10'])], A))).toHaveLength(1)
    expect(currentBy('light-chain-escape', active([...urine, ...chains, ...iga(['20', '10', '16'])], A))).toEqual([])
  })
})

test('the response is PD by the same criterion, confirmed by two samples', () => {
  const urine = every4Weeks('urine-m-protein', 'mg/(24.h)', ['300', '100', '100', '100'])
  const response = (values: string[]) => assessResponse(courseOf(active([...urine, ...iga(values)], A)))
  expect(response(['20', '10', '14.9', '14.9']).category).not.toBe('PD')
  expect(response(['20', '10', '10', '15'])).toMatchObject({ category: 'PD', state: 'unconfirmed' })
  expect(response(['20', '10', '10', '15', '15'])).toMatchObject({ category: 'PD', state: 'confirmed' })
})
