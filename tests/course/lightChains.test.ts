import { expect, test } from 'vitest'
import { lightChainPairs } from '../../lib/course/index.ts'
import type { HistoryWords, ResultRow } from '../builders/history.ts'
import { courseOf, shownInterval } from './shown.ts'

const flc = (on: string, kappa: string, lambda: string, laboratory = 'North laboratory'): ResultRow[] => [
  [on, 'kappa-flc', kappa, 'mg/L', { laboratory }],
  [on, 'lambda-flc', lambda, 'mg/L', { laboratory }],
]
const values = (words: HistoryWords, name: 'dflc' | 'involved-flc' | 'involved-ratio') =>
  courseOf(words).markers[name].samples.map((sample) => `${sample.on} ${shownInterval(sample.value)}`)
const lambdaDisease: HistoryWords['diagnosis'] = ['2020-01-01', 'active', { light: 'lambda' }]

test('dFLC, involved chain and ratio come from the chain of the diagnosis', () => {
  const words = { diagnosis: lambdaDisease, results: flc('2020-01-01', '4.5', '90.3') }
  expect(values(words, 'dflc')).toEqual(['2020-01-01 85.8'])
  expect(values(words, 'involved-flc')).toEqual(['2020-01-01 90.3'])
  expect(values(words, 'involved-ratio')).toEqual(['2020-01-01 20.066666666667'])
})

test('the involved chain of an unknown diagnosis is told by the first abnormal ratio', () => {
  const normal = flc('2020-01-01', '16.5', '10')
  expect(courseOf({ results: normal }).involved).toBe(null)
  expect(courseOf({ results: [...normal, ...flc('2020-02-01', '16.6', '10')] }).involved).toEqual({ chain: 'kappa', from: 'ratio' })
  expect(courseOf({ results: [...normal, ...flc('2020-02-01', '2.59', '10')] }).involved).toEqual({ chain: 'lambda', from: 'ratio' })
  expect(courseOf({ results: flc('2020-01-01', '<17', '10') }).involved).toBe(null)
})

test('an impaired kidney widens the interval that tells the chain', () => {
  const results: ResultRow[] = [...flc('2020-01-01', '30', '10'), ['2019-12-01', 'creatinine', '200']]
  expect(courseOf({ results }).involved).toBe(null)
})

test('nothing is derived while the involved chain is unknown', () => {
  const course = courseOf({ results: flc('2020-01-01', '16', '10') })
  expect([course.markers.dflc.samples, course.markers['involved-flc'].samples, course.markers['involved-ratio'].samples]).toEqual([[], [], []])
  expect(lightChainPairs(course)).toEqual([])
})

test('chains of two laboratories are never joined', () => {
  const split: ResultRow[] = [
    ['2020-01-01', 'kappa-flc', '4', 'mg/L', { laboratory: 'North laboratory' }],
    ['2020-01-01', 'lambda-flc', '90', 'mg/L', { laboratory: 'South laboratory' }],
  ]
  expect(values({ diagnosis: lambdaDisease, results: split }, 'dflc')).toEqual([])
  expect(values({ diagnosis: lambdaDisease, results: split }, 'involved-flc')).toEqual(['2020-01-01 90'])
  const both = [...flc('2020-01-01', '4', '90'), ...flc('2020-01-01', '5', '80', 'South laboratory')]
  expect(values({ diagnosis: lambdaDisease, results: both }, 'dflc')).toEqual(['2020-01-01 75'])
})

test('a censored chain gives intervals, rounded outward', () => {
  const words = { diagnosis: lambdaDisease, results: [...flc('2020-01-01', '<3', '100'), ...flc('2020-02-01', '7', '>5000')] }
  expect(values(words, 'dflc')).toEqual(['2020-01-01 [97, 100]', '2020-02-01 [4993, ...'])
  expect(values(words, 'involved-ratio')).toEqual(['2020-01-01 [33.333333333333, ...', '2020-02-01 [714.285714285714, ...'])
})

test('an uninvolved chain of 0 makes a difference and no ratio', () => {
  const words = { diagnosis: lambdaDisease, results: flc('2020-01-01', '0', '100') }
  expect(values(words, 'dflc')).toEqual(['2020-01-01 100'])
  expect(values(words, 'involved-ratio')).toEqual([])
})

test('both chains of one sample are there for exact comparison, with the results they came from', () => {
  const [pair] = lightChainPairs(courseOf({ diagnosis: lambdaDisease, results: flc('2020-01-01', '1', '100') }))
  expect([shownInterval(pair?.involved), shownInterval(pair?.uninvolved), shownInterval(pair?.kappa), shownInterval(pair?.lambda)]).toEqual([
    '100',
    '1',
    '1',
    '100',
  ])
  expect(pair?.sample.results.map((result) => result.analyte)).toEqual(['lambda-flc', 'kappa-flc'])
})
