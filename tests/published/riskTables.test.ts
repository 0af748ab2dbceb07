import { describe, expect, test } from 'vitest'
import { modelPage, type RiskAssessment, riskAssessments } from '../../lib/models/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

// The published tables, written out once more as they stand in their sources, and asked of whole histories. "(from memory)" where no source was at hand.
const ON = '2024-01-01'
type Model = RiskAssessment['model']

function assessed(model: Model, words: HistoryWords): RiskAssessment | undefined {
  return riskAssessments(courseOf(words, '2024-06-01')).find((risk) => risk.model === model)
}

const chains = (involved: string, uninvolved: string): ResultRow[] => [
  [ON, 'kappa-flc', involved],
  [ON, 'lambda-flc', uninvolved],
]

// Rajkumar, Blood 2005;106:812: M-protein 15 g/L or more, not IgG, abnormal ratio (0.26 to 1.65, Katzmann, Clin Chem 2002;48:1437).
describe('MGUS, per cent at 20 years (Rajkumar, Blood 2005;106:812)', () => {
  const mgus = (heavy: 'G' | 'A' | 'M', serum: string, flc: ResultRow[]): HistoryWords => ({
    diagnosis: [ON, 'mgus', { heavy, light: 'kappa' }],
    results: [[ON, 'serum-m-protein', serum], ...flc],
  })
  const normal = chains('16.5', '10')
  const abnormal = chains('16.51', '10')

  test.each<[string, HistoryWords, number, string, string]>([
    ['no factor: 14.9 g/L, IgG, ratio 1.65', mgus('G', '14.9', normal), 0, 'low', '5'],
    ['15 g/L itself counts', mgus('G', '15', normal), 1, 'low-intermediate', '21'],
    ['IgM alone', mgus('M', '14.9', normal), 1, 'low-intermediate', '21'],
    ['ratio 1.651 alone', mgus('G', '14.9', abnormal), 1, 'low-intermediate', '21'],
    ['ratio 0.26 is normal', mgus('G', '14.9', chains('2.6', '10')), 0, 'low', '5'],
    ['ratio 0.259 is not', mgus('G', '14.9', chains('2.59', '10')), 1, 'low-intermediate', '21'],
    ['two', mgus('A', '15', normal), 2, 'high-intermediate', '37'],
    ['three', mgus('A', '15', abnormal), 3, 'high', '58'],
  ])('%s', (_, words, factors, group, percent) => {
    expect(assessed('mgus', words)).toEqual({ model: 'mgus', factors, points: null, group, percent, horizon: '20 years', missing: [] })
  })

  test.each<[string, HistoryWords, readonly string[]]>([
    ['no M-protein', { diagnosis: [ON, 'mgus', { heavy: 'G', light: 'kappa' }], results: normal }, ['serum M-protein not known']],
    ['no heavy chain', { diagnosis: [ON, 'mgus'], results: [[ON, 'serum-m-protein', '10'], ...normal] }, ['heavy chain not known']],
    ['no light chains', mgus('G', '10', []), ['light-chain ratio not known']],
    ['one chain only', mgus('G', '10', normal.slice(0, 1)), ['light-chain ratio not known']],
    ['a limit across 15 g/L', mgus('G', '<15.1', normal), ['serum M-protein known only as a limit']],
  ])('%s: no group, and it is named', (_, words, missing) => {
    expect(assessed('mgus', words)).toMatchObject({ group: null, percent: null, missing })
  })
})

const smouldering = (serum: string | null, flc: ResultRow[], marrow: string | null, abnormalities: readonly string[] = []): HistoryWords => ({
  diagnosis: [ON, 'smouldering', { heavy: 'G', light: 'kappa' }],
  results: [...(serum === null ? [] : [[ON, 'serum-m-protein', serum] as const]), ...flc],
  ...(marrow === null && abnormalities.length === 0 ? {} : { marrow: [[ON, marrow, { abnormalities }]] }),
})
const AT_20 = chains('200', '10')
const ABOVE_20 = chains('200.1', '10')

describe('20/2/20, per cent at 2 years (Lakshman, Blood Cancer J 2018;8:59; Mateos, Blood Cancer J 2020;10:102)', () => {
  test.each<[string, HistoryWords, number, string, string]>([
    ['all three on 20: none counts', smouldering('20', AT_20, '20'), 0, 'low', '6'],
    ['M-protein 20.1 g/L', smouldering('20.1', AT_20, '20'), 1, 'intermediate', '18'],
    ['ratio 20.01', smouldering('20', ABOVE_20, '20'), 1, 'intermediate', '18'],
    ['marrow 20.1 %', smouldering('20', AT_20, '20.1'), 1, 'intermediate', '18'],
    ['two', smouldering('20.1', ABOVE_20, '20'), 2, 'high', '44'],
    ['three', smouldering('20.1', ABOVE_20, '20.1'), 3, 'high', '44'],
  ])('%s', (_, words, factors, group, percent) => {
    expect(assessed('20-2-20', words)).toEqual({ model: '20-2-20', factors, points: null, group, percent, horizon: '2 years', missing: [] })
  })

  test('two factors are high risk whatever is missing; with fewer no group is given', () => {
    expect(assessed('20-2-20', smouldering('20.1', [], '20.1'))).toMatchObject({ factors: 2, group: 'high', percent: '44' })
    expect(assessed('20-2-20', smouldering('20.1', [], '20'))).toMatchObject({
      factors: 1,
      group: null,
      percent: null,
      missing: ['involved light-chain ratio not known'],
    })
    expect(assessed('20-2-20', smouldering(null, AT_20, null))).toMatchObject({
      group: null,
      missing: ['marrow plasma cells not known', 'serum M-protein not known'],
    })
  })

  test.each<[string, HistoryWords, number, string]>([
    ['0', smouldering('20', AT_20, '20', ['none']), 0, '6'],
    ['1, t(4;14)', smouldering('20', AT_20, '20', ['t(4;14)']), 1, '23'],
    ['1, t(14;16)', smouldering('20', AT_20, '20', ['t(14;16)']), 1, '23'],
    ['1, 1q gain', smouldering('20', AT_20, '20', ['1q gain']), 1, '23'],
    ['1, del(13q)', smouldering('20', AT_20, '20', ['del(13q)']), 1, '23'],
    ['not counted: t(11;14), del(17p)', smouldering('20', AT_20, '20', ['t(11;14)', 'del(17p)']), 0, '6'],
    ['2', smouldering('20.1', AT_20, '20', ['t(4;14)']), 2, '46'],
    ['3', smouldering('20.1', ABOVE_20, '20', ['t(4;14)']), 3, '63'],
    ['4', smouldering('20.1', ABOVE_20, '20.1', ['t(4;14)']), 4, '63'],
  ])('with genetics as a fourth factor (Mateos 2020): %s', (_, words, factors, percent) => {
    expect(assessed('20-2-20-cytogenetics', words)).toMatchObject({ factors, percent, horizon: '2 years', missing: [] })
  })
})

// Mateos, Blood Cancer J 2020;10:102. Ends of the intervals, totals and per cent: (from memory).
describe('points, per cent at 2 years (Mateos, Blood Cancer J 2020;10:102; ends and per cent from memory)', () => {
  const LOW = { serum: '15', flc: chains('100', '10'), marrow: '15' }
  const points = ({ serum = LOW.serum, flc = LOW.flc, marrow = LOW.marrow, genetics = ['none'] }) =>
    assessed('smouldering-points', smouldering(serum, flc, marrow, genetics))

  test.each([
    [chains('100', '10'), 0],
    [chains('100.1', '10'), 2],
    [chains('250', '10'), 2],
    [chains('250.1', '10'), 3],
    [chains('400', '10'), 3],
    [chains('400.1', '10'), 5],
  ])('ratio of %j gives %i', (flc, expected) => expect(points({ flc })?.points).toBe(expected))

  test.each([
    ['15', 0],
    ['15.1', 3],
    ['30', 3],
    ['30.1', 4],
  ])('M-protein %s g/L gives %i', (serum, expected) => expect(points({ serum })?.points).toBe(expected))

  test.each([
    ['15', 0],
    ['15.1', 2],
    ['20', 2],
    ['20.1', 3],
    ['30', 3],
    ['30.1', 5],
    ['40', 5],
    ['40.1', 6],
  ])('marrow %s %% gives %i', (marrow, expected) => expect(points({ marrow })?.points).toBe(expected))

  test('high-risk genetics give 2', () => expect(points({ genetics: ['t(14;16)'] })?.points).toBe(2))

  test.each([
    [4, '3.8', { serum: '30.1' }],
    [5, '26.2', { serum: '15.1', flc: chains('100.1', '10') }],
    [8, '26.2', { serum: '15.1', flc: chains('250.1', '10'), marrow: '15.1' }],
    [9, '51.1', { serum: '15.1', flc: chains('250.1', '10'), marrow: '20.1' }],
    [12, '51.1', { serum: '30.1', flc: chains('250.1', '10'), marrow: '30.1' }],
    [13, '72.5', { serum: '30.1', flc: chains('250.1', '10'), marrow: '40.1' }],
    [17, '72.5', { serum: '30.1', flc: chains('400.1', '10'), marrow: '40.1', genetics: ['t(4;14)'] }],
  ])('%i points are %s %%', (total, percent, given) => {
    expect(points(given)).toMatchObject({ points: total, percent, horizon: '2 years', missing: [] })
  })

  test('without an input no group is given; unknown genetics count 0 and are named', () => {
    expect(assessed('smouldering-points', smouldering('25', [], '18', ['none']))).toMatchObject({
      group: null,
      percent: null,
      missing: ['involved light-chain ratio not known'],
    })
    expect(assessed('smouldering-points', smouldering('25', chains('250', '10'), '18'))).toMatchObject({ points: 7, missing: ['genetics not known'] })
  })

  // Public worked case: the two models disagree, and both are shown.
  test('M-protein 25 g/L, ratio 25, marrow 18 %: 44 % by 20/2/20, 26.2 % by points', () => {
    const words = smouldering('25', chains('250', '10'), '18')
    expect([assessed('20-2-20', words)?.percent, assessed('smouldering-points', words)?.percent]).toEqual(['44', '26.2'])
  })
})

test('the pages show the published per cent', () => {
  const shown = (model: Parameters<typeof modelPage>[0]) =>
    modelPage(model)
      .tables.at(-1)
      ?.rows.map((row) => row[2])
  expect(shown('mgus')).toEqual(['5', '21', '37', '58'])
  expect(shown('20-2-20')).toEqual(['6', '18', '44'])
  expect(shown('20-2-20-cytogenetics')).toEqual(['6', '23', '46', '63'])
  expect(shown('smouldering-points')).toEqual(['3.8', '26.2', '51.1', '72.5'])
})
