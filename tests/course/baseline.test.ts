import { expect, test } from 'vitest'
import { type HistoryWords, series } from '../builders/history.ts'
import { courseOf, shownWindow } from './shown.ts'

const window = (words: HistoryWords, values: Record<string, string>) =>
  shownWindow(courseOf({ ...words, results: series('serum-m-protein', 'g/L', values) }).markers['serum-m-protein'])

const line: HistoryWords = { diagnosis: ['2020-01-01', 'active'], lines: [{ start: '2020-03-01' }] }

test.each<[string, Record<string, string>, string[]]>([
  ['the last on or before the start', { '2020-02-01': '1', '2020-03-01': '2', '2020-03-02': '3' }, ['2020-03-01 2', '2020-03-02 3']],
  ['60 days before still counts', { '2020-01-01': '1', '2020-03-02': '2' }, ['2020-01-01 1', '2020-03-02 2']],
  ['61 days before does not; 7 days after does', { '2019-12-31': '1', '2020-03-08': '2', '2020-03-20': '3' }, ['2020-03-08 2', '2020-03-20 3']],
  ['8 days after does not', { '2019-12-31': '1', '2020-03-09': '2' }, []],
  ['none at all', {}, []],
])('baseline of a line: %s', (_why, values, expected) => {
  expect(window(line, values)).toEqual(expected)
})

test('a new line opens a new window', () => {
  const words: HistoryWords = { diagnosis: ['2020-01-01', 'active'], lines: [{ start: '2020-01-01', end: '2020-06-01' }, { start: '2021-01-01' }] }
  expect(window(words, { '2020-01-01': '40', '2020-06-01': '2', '2020-12-20': '20', '2021-02-01': '10' })).toEqual(['2020-12-20 20', '2021-02-01 10'])
})

test.each<[string, Record<string, string>, string[]]>([
  ['the nearest, before or after', { '2019-11-01': '1', '2020-01-11': '2', '2021-01-01': '3' }, ['2020-01-11 2', '2021-01-01 3']],
  ['90 days count', { '2020-03-31': '1' }, ['2020-03-31 1']],
  ['91 do not', { '2020-04-01': '1' }, []],
  ['the earlier of two as near', { '2019-12-31': '1', '2020-01-02': '2' }, ['2019-12-31 1', '2020-01-02 2']],
])('baseline in smouldering myeloma: %s', (_why, values, expected) => {
  expect(window({ diagnosis: ['2020-01-01', 'smouldering'] }, values)).toEqual(expected)
})

test('active disease without a line opens at the day the active phase began', () => {
  const words: HistoryWords = { diagnosis: ['2018-01-01', 'smouldering'], phases: [['2020-01-01', 'active']] }
  expect(window(words, { '2018-01-01': '20', '2019-12-20': '35', '2020-02-01': '36' })).toEqual(['2019-12-20 35', '2020-02-01 36'])
})

test('without a recorded phase there is no window', () => {
  expect(window({ lines: [{ start: '2020-01-01' }] }, { '2020-01-01': '20' })).toEqual([])
})
