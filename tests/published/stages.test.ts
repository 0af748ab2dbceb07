import { describe, expect, test } from 'vitest'
import { type RiskAssessment, riskAssessments } from '../../lib/models/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

// The published stages of active myeloma, asked of whole histories.
const ON = '2024-01-01'

function assessed(model: RiskAssessment['model'], words: HistoryWords): RiskAssessment | undefined {
  return riskAssessments(courseOf(words, '2024-06-01')).find((risk) => risk.model === model)
}

const active = (results: readonly ResultRow[], abnormalities: readonly string[] = []): HistoryWords => ({
  diagnosis: [ON, 'active', { heavy: 'G', light: 'kappa' }],
  results,
  marrow: [[ON, '30', { abnormalities }]],
})
const blood = (b2m: string, albumin: string, ldh = '250'): ResultRow[] => [
  [ON, 'b2-microglobulin', b2m],
  [ON, 'albumin', albumin],
  [ON, 'ldh', ldh, 'U/L', { referenceHigh: '250' }],
]

describe('ISS (Greipp, J Clin Oncol 2005;23:3412)', () => {
  test.each([
    ['3.4', '35', 'I'],
    ['3.49', '35', 'I'],
    ['3.4', '34.9', 'II'],
    ['3.5', '35', 'II'],
    ['5.49', '35', 'II'],
    ['5.5', '35', 'III'],
    ['5.5', '20', 'III'],
  ])('beta-2 microglobulin %s mg/L, albumin %s g/L: %s', (b2m, albumin, group) => {
    expect(assessed('iss', active(blood(b2m, albumin)))).toEqual({
      model: 'iss',
      factors: null,
      points: null,
      group,
      percent: null,
      horizon: null,
      missing: [],
    })
  })

  test.each<[string, ResultRow[], string | null, readonly string[]]>([
    ['nothing', [], null, ['beta-2 microglobulin not known']],
    ['albumin, where it decides', [[ON, 'b2-microglobulin', '3']], null, ['albumin not known']],
    ['albumin, where it does not: II', [[ON, 'b2-microglobulin', '4']], 'II', []],
    ['albumin, where it does not: III', [[ON, 'b2-microglobulin', '6']], 'III', []],
    ['a limit across 5.5', [[ON, 'b2-microglobulin', '>5']], null, ['beta-2 microglobulin known only as a limit']],
    ['a limit above 5.5', [[ON, 'b2-microglobulin', '>6']], 'III', []],
  ])('missing: %s', (_, results, group, missing) => {
    expect(assessed('iss', active(results))).toMatchObject({ group, missing })
  })
})

describe('R-ISS (Palumbo, J Clin Oncol 2015;33:2863)', () => {
  test.each<[string, HistoryWords, string]>([
    ['ISS I, LDH on its limit, no high-risk genetics', active(blood('3', '40'), ['none']), 'I'],
    ['ISS I, LDH above', active(blood('3', '40', '251'), ['none']), 'II'],
    ['ISS I, del(17p)', active(blood('3', '40'), ['del(17p)']), 'II'],
    ['ISS I, t(4;14)', active(blood('3', '40'), ['t(4;14)']), 'II'],
    ['ISS I, t(14;16)', active(blood('3', '40'), ['t(14;16)']), 'II'],
    ['ISS I, t(11;14) and 1q gain do not count', active(blood('3', '40'), ['t(11;14)', '1q gain']), 'I'],
    ['ISS II, with either', active(blood('4', '40', '251'), ['del(17p)']), 'II'],
    ['ISS II, nothing known', active(blood('4', '40').slice(0, 2)), 'II'],
    ['ISS III, neither', active(blood('6', '40'), ['none']), 'II'],
    ['ISS III, LDH above, genetics not known', active(blood('6', '40', '251')), 'III'],
    ['ISS III, t(14;16)', active(blood('6', '40'), ['t(14;16)']), 'III'],
  ])('%s: %s', (_, words, group) => {
    expect(assessed('r-iss', words)).toMatchObject({ group, missing: [] })
  })

  test.each<[string, HistoryWords, readonly string[]]>([
    ['genetics', active(blood('3', '40')), ['genetics not known']],
    ['LDH', active(blood('3', '40').slice(0, 2), ['none']), ['LDH with its upper limit not known']],
    ['the limit of LDH', active([...blood('6', '40').slice(0, 2), [ON, 'ldh', '400']], ['none']), ['LDH with its upper limit not known']],
    ['ISS', active([]), ['beta-2 microglobulin not known']],
  ])('no stage without %s, and it is named', (_, words, missing) => {
    expect(assessed('r-iss', words)).toMatchObject({ group: null, missing })
  })
})

describe('high risk 2025 (Avet-Loiseau, J Clin Oncol 2025;43:2739)', () => {
  const ALONE = ['none']
  const low = blood('3', '40')
  const kidney = (b2m: string, creatinine: string, unit: string): ResultRow[] => [...blood(b2m, '40'), [ON, 'creatinine', creatinine, unit]]

  test.each<[string, HistoryWords, string]>([
    ['none of the four', active(low, ALONE), 'not high risk'],
    ['del(17p) in 20 % of cells', active(low, ['del(17p) 20%']), 'not high risk'],
    ['del(17p) in 20.1 % of cells', active(low, ['del(17p) 20.1%']), 'high risk'],
    ['a TP53 mutation', active(low, ['TP53 mutation']), 'high risk'],
    ['t(4;14) alone', active(low, ['t(4;14)']), 'not high risk'],
    ['t(14;16) alone', active(low, ['t(14;16)']), 'not high risk'],
    ['t(14;20) alone', active(low, ['t(14;20)']), 'not high risk'],
    ['1q gain alone', active(low, ['1q gain']), 'not high risk'],
    ['t(4;14) with 1q gain', active(low, ['t(4;14)', '1q gain']), 'high risk'],
    ['t(14;16) with del(1p32)', active(low, ['t(14;16)', 'del(1p32)']), 'high risk'],
    ['t(14;20) with 1q gain', active(low, ['t(14;20)', '1q gain']), 'high risk'],
    ['t(11;14) with 1q gain', active(low, ['t(11;14)', '1q gain']), 'not high risk'],
    ['monoallelic del(1p32)', active(low, ['monoallelic del(1p32)']), 'not high risk'],
    ['monoallelic del(1p32) with 1q gain', active(low, ['monoallelic del(1p32)', '1q gain']), 'high risk'],
    ['biallelic del(1p32)', active(low, ['biallelic del(1p32)']), 'high risk'],
    ['B2M 5.5 mg/L, creatinine 1.19 mg/dL', active(kidney('5.5', '1.19', 'mg/dL'), ALONE), 'high risk'],
    ['B2M 5.5 mg/L, creatinine 1.2 mg/dL', active(kidney('5.5', '1.2', 'mg/dL'), ALONE), 'not high risk'],
    ['B2M 5.49 mg/L, creatinine 1.0 mg/dL', active(kidney('5.49', '1.0', 'mg/dL'), ALONE), 'not high risk'],
    ['B2M 5.5 mg/L, creatinine 106 umol/L', active(kidney('5.5', '106', 'umol/L'), ALONE), 'high risk'],
    ['B2M 5.5 mg/L, creatinine 106.1 umol/L', active(kidney('5.5', '106.1', 'umol/L'), ALONE), 'not high risk'],
  ])('%s: %s', (_, words, group) => {
    expect(assessed('high-risk-2025', words)).toMatchObject({ group, missing: [] })
  })

  test.each<[string, HistoryWords, readonly string[]]>([
    ['genetics not known', active(low), ['genetics not known']],
    ['the share of cells with del(17p) not told', active(low, ['del(17p)']), ['share of cells with del(17p) not known']],
    ['creatinine not known', active(blood('5.5', '40'), ALONE), ['creatinine not known']],
    ['beta-2 microglobulin not known', active([[ON, 'creatinine', '1.0', 'mg/dL']], ALONE), ['beta-2 microglobulin not known']],
  ])('%s: it says neither, and names it', (_, words, missing) => {
    expect(assessed('high-risk-2025', words)).toMatchObject({ group: null, missing })
  })

  test('one finding is enough, whatever else is missing', () => {
    expect(assessed('high-risk-2025', active([], ['TP53 mutation']))).toMatchObject({ group: 'high risk', missing: [] })
  })
})
