import { expect, test } from 'vitest'
import { type RiskAssessment, riskAssessments } from '../../lib/models/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf } from '../course/shown.ts'

const on = '2020-01-01'
const flc = (kappa: string, lambda: string): ResultRow[] => [
  [on, 'kappa-flc', kappa],
  [on, 'lambda-flc', lambda],
]

function model(name: RiskAssessment['model'], words: HistoryWords): Partial<RiskAssessment> | undefined {
  return riskAssessments(courseOf(words)).find((risk) => risk.model === name)
}

const mgus = (heavy: 'G' | 'A', serum: string, flcRows: ResultRow[]) =>
  model('mgus', { diagnosis: [on, 'mgus', { heavy, light: 'kappa' }], results: [[on, 'serum-m-protein', serum], ...flcRows] })

// Rajkumar, Blood 2005;106:812.
test.each([
  ['none', 'G', '14.9', flc('16.5', '10'), 0, 'low', '5'],
  ['M-protein 15 g/L', 'G', '15', flc('16.5', '10'), 1, 'low-intermediate', '21'],
  ['and not IgG', 'A', '15', flc('16.5', '10'), 2, 'high-intermediate', '37'],
  ['and an abnormal ratio', 'A', '15', flc('16.6', '10'), 3, 'high', '58'],
] as const)('MGUS: %s', (_name, heavy, serum, chains, factors, group, percent) => {
  expect(mgus(heavy, serum, [...chains])).toMatchObject({ factors, group, percent, horizon: '20 years', missing: [], points: null })
})

test('MGUS without light chains has no group and says why', () => {
  expect(mgus('A', '20', [])).toMatchObject({ factors: 2, group: null, percent: null, missing: ['light-chain ratio not known'] })
  expect(mgus('G', '<16', flc('10', '10'))).toMatchObject({ group: null, missing: ['serum M-protein known only as a limit'] })
})

const smouldering = (serum: string, chains: ResultRow[], marrow: string, abnormalities: string[] = [], unit = 'g/L'): HistoryWords => ({
  diagnosis: [on, 'smouldering', { heavy: 'G', light: 'kappa' }],
  results: [[on, 'serum-m-protein', serum, unit], ...chains],
  marrow: [[on, marrow, { abnormalities }]],
})

// Lakshman 2018; Mateos, Blood Cancer J 2020;10:102. Case 13 of the specification.
test.each<[string, HistoryWords, number, string, string]>([
  ['M 20, ratio 20, marrow 20', smouldering('20', flc('200', '10'), '20'), 0, 'low', '6'],
  ['M 2 g/dL', smouldering('2', flc('200', '10'), '20', [], 'g/dL'), 0, 'low', '6'],
  ['M 2.01 g/dL', smouldering('2.01', flc('200', '10'), '20', [], 'g/dL'), 1, 'intermediate', '18'],
  ['M 20.1', smouldering('20.1', flc('200', '10'), '20'), 1, 'intermediate', '18'],
  ['ratio 20.01', smouldering('20', flc('200.1', '10'), '20'), 1, 'intermediate', '18'],
  ['marrow 21', smouldering('20', flc('200', '10'), '21'), 1, 'intermediate', '18'],
  ['M 25, ratio 25, marrow 18', smouldering('25', flc('250', '10'), '18'), 2, 'high', '44'],
  ['all three', smouldering('25', flc('250', '10'), '25'), 3, 'high', '44'],
])('20/2/20: %s', (_name, words, factors, group, percent) => {
  expect(model('20-2-20', words)).toMatchObject({ factors, group, percent, horizon: '2 years' })
})

test('20/2/20 gives a group as soon as what is missing cannot change it', () => {
  const without: HistoryWords = { diagnosis: [on, 'smouldering', { light: 'kappa' }], results: [[on, 'serum-m-protein', '25']], marrow: [[on, '25']] }
  expect(model('20-2-20', without)).toMatchObject({ factors: 2, group: 'high', missing: ['involved light-chain ratio not known'] })
  expect(model('20-2-20', { ...without, marrow: [] })).toMatchObject({ factors: 1, group: null, percent: null })
})

// Mateos, Blood Cancer J 2020;10:102.
test.each([
  [['none'], 0, '6'],
  [['t(11;14)'], 0, '6'],
  [['t(4;14)'], 1, '23'],
  [['gain(1q)', 'del(13q)'], 1, '23'],
])('with genetics: %s', (abnormalities, factors, percent) => {
  expect(model('20-2-20-cytogenetics', smouldering('20', flc('200', '10'), '20', abnormalities))).toMatchObject({ factors, percent })
})

test('with genetics: two and three factors', () => {
  expect(model('20-2-20-cytogenetics', smouldering('25', flc('200', '10'), '20', ['t(14;16)']))).toMatchObject({ factors: 2, percent: '46' })
  expect(model('20-2-20-cytogenetics', smouldering('25', flc('250', '10'), '20', ['t(14;16)']))).toMatchObject({ factors: 3, percent: '63' })
  expect(model('20-2-20-cytogenetics', smouldering('25', flc('250', '10'), '20'))).toBe(undefined)
})

// Mateos, Blood Cancer J 2020;10:102; ends of the intervals and percentages from memory.
test.each<[string, HistoryWords, number, string]>([
  ['case 13: M 25, ratio 25, marrow 18', smouldering('25', flc('250', '10'), '18'), 7, '26.2'],
  ['all at their lowest ends', smouldering('15', flc('100', '10'), '15'), 0, '3.8'],
  ['one step above them', smouldering('15.1', flc('100.1', '10'), '16'), 7, '26.2'],
  ['next ends', smouldering('30', flc('250', '10'), '20'), 7, '26.2'],
  ['above those', smouldering('30.1', flc('250.1', '10'), '21'), 10, '51.1'],
  ['marrow and ratio above 40', smouldering('30.1', flc('400.1', '10'), '41'), 15, '72.5'],
  ['at 40, with genetics', smouldering('30', flc('400', '10'), '40', ['t(4;14)']), 13, '72.5'],
])('points: %s', (_name, words, points, percent) => {
  expect(model('smouldering-points', words)).toMatchObject({ points, percent, factors: null })
})

test('points name what is not known', () => {
  expect(model('smouldering-points', smouldering('25', flc('250', '10'), '18'))?.missing).toEqual(['genetics not known'])
  expect(model('smouldering-points', { diagnosis: [on, 'smouldering'], results: [[on, 'serum-m-protein', '25']] })).toMatchObject({
    points: 3,
    group: null,
    missing: ['involved light-chain ratio not known', 'marrow plasma cells not known', 'genetics not known'],
  })
})

const active = (results: ResultRow[], abnormalities: string[] = [], more: HistoryWords = {}): HistoryWords => ({
  diagnosis: [on, 'active', { heavy: 'G', light: 'kappa' }],
  results,
  marrow: [[on, '30', { abnormalities }]],
  ...more,
})
const blood = (b2m: string, albumin: string, ldh = '200', albuminUnit = 'g/L'): ResultRow[] => [
  [on, 'b2-microglobulin', b2m],
  [on, 'albumin', albumin, albuminUnit],
  [on, 'ldh', ldh, 'U/L', { referenceHigh: '250' }],
]

// Greipp, J Clin Oncol 2005;23:3412.
test.each([
  ['3.4', '35', 'g/L', 'I'],
  ['3.4', '3.5', 'g/dL', 'I'],
  ['3.4', '34.9', 'g/L', 'II'],
  ['3.5', '35', 'g/L', 'II'],
  ['5.4', '20', 'g/L', 'II'],
  ['5.5', '45', 'g/L', 'III'],
])('ISS: B2M %s, albumin %s %s is %s', (b2m, albumin, unit, group) => {
  expect(model('iss', active(blood(b2m, albumin, '200', unit)))).toMatchObject({ group, missing: [], percent: null })
})

test('ISS asks for what it lacks, and takes values near the line or the diagnosis only', () => {
  expect(model('iss', active([]))).toMatchObject({ group: null, missing: ['beta-2 microglobulin not known'] })
  expect(model('iss', active([[on, 'b2-microglobulin', '3']]))).toMatchObject({ group: null, missing: ['albumin not known'] })
  expect(model('iss', active([['2020-03-31', 'b2-microglobulin', '6']]))).toMatchObject({ group: 'III' })
  expect(model('iss', active([['2020-04-01', 'b2-microglobulin', '6']]))).toMatchObject({ group: null })
  const line: HistoryWords = { lines: [{ start: '2021-01-01' }] }
  expect(model('iss', active([...blood('3', '40'), ['2021-03-02', 'b2-microglobulin', '6']], [], line))).toMatchObject({ group: 'III' })
  expect(model('iss', active([...blood('3', '40'), ['2021-03-03', 'b2-microglobulin', '6']], [], line))).toMatchObject({ group: 'I' })
})

// Palumbo, J Clin Oncol 2015;33:2863.
test.each<[string, ResultRow[], string[], string | null]>([
  ['I without anything', blood('3', '40'), ['none'], 'I'],
  ['I with LDH at its limit', blood('3', '40', '250'), ['none'], 'I'],
  ['I with LDH above it', blood('3', '40', '251'), ['none'], 'II'],
  ['I with t(4;14)', blood('3', '40'), ['t(4;14)'], 'II'],
  ['II stays II', blood('4', '40', '251'), ['del(17p)'], 'II'],
  ['III without anything', blood('6', '40'), ['none'], 'II'],
  ['III with del(17p)', blood('6', '40'), ['del(17p) 10%'], 'III'],
  ['III with LDH above', blood('6', '40', '251'), [], 'III'],
  ['III, genetics not known', blood('6', '40'), [], null],
])('R-ISS: %s', (_name, results, abnormalities, group) => {
  expect(model('r-iss', active(results, abnormalities))?.group).toBe(group)
})

// Avet-Loiseau, J Clin Oncol 2025;43:2739.
test.each<[string, ResultRow[], string[], string | null]>([
  ['nothing', blood('3', '40'), ['none'], 'not high risk'],
  ['del(17p) in 20 %', blood('3', '40'), ['del(17p) 20%'], 'not high risk'],
  ['del(17p) in 20.5 %', blood('3', '40'), ['del(17p) 20.5 %'], 'high risk'],
  ['del(17p), share not told', blood('3', '40'), ['del(17p)'], null],
  ['TP53 mutation', blood('3', '40'), ['TP53 mutation'], 'high risk'],
  ['t(4;14) alone', blood('3', '40'), ['t(4;14)'], 'not high risk'],
  ['t(4;14) with 1q gain', blood('3', '40'), ['t(4;14)', '1q gain'], 'high risk'],
  ['t(14;20) with del(1p32)', blood('3', '40'), ['t(14;20)', 'del(1p32)'], 'high risk'],
  ['biallelic del(1p32)', blood('3', '40'), ['biallelic del(1p32)'], 'high risk'],
  ['monoallelic del(1p32)', blood('3', '40'), ['monoallelic del(1p32)'], 'not high risk'],
  ['monoallelic del(1p32) with 1q gain', blood('3', '40'), ['del(1p32)', '1q gain'], 'high risk'],
  ['B2M 5.5, creatinine 1.19 mg/dL', [...blood('5.5', '40'), [on, 'creatinine', '1.19', 'mg/dL']], ['none'], 'high risk'],
  ['B2M 5.5, creatinine 1.2 mg/dL', [...blood('5.5', '40'), [on, 'creatinine', '1.2', 'mg/dL']], ['none'], 'not high risk'],
  ['B2M 5.5, creatinine 106 umol/L', [...blood('5.5', '40'), [on, 'creatinine', '106']], ['none'], 'high risk'],
  ['B2M 5.5, creatinine 107 umol/L', [...blood('5.5', '40'), [on, 'creatinine', '107']], ['none'], 'not high risk'],
  ['B2M 5.4', [...blood('5.4', '40'), [on, 'creatinine', '80']], ['none'], 'not high risk'],
  ['B2M 5.5, creatinine not known', blood('5.5', '40'), ['none'], null],
  ['genetics not known', blood('3', '40'), [], null],
])('high risk 2025: %s', (_name, results, abnormalities, group) => {
  expect(model('high-risk-2025', active(results, abnormalities))?.group).toBe(group)
})

test.each([
  ['mgus', ['mgus']],
  ['smouldering', ['20-2-20', 'smouldering-points']],
  ['active', ['iss', 'r-iss', 'high-risk-2025']],
  ['amyloidosis', []],
] as const)('a model appears only in its phase: %s', (phase, models) => {
  expect(riskAssessments(courseOf({ diagnosis: [on, phase] })).map((risk) => risk.model)).toEqual(models)
})

test('without a recorded phase no model is applied', () => {
  expect(riskAssessments(courseOf({}))).toEqual([])
})
