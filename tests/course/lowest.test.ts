import { expect, test } from 'vitest'
import { series } from '../builders/history.ts'
import { courseOf, shownMark, shownWindow } from './shown.ts'

const active = (values: Record<string, string>) =>
  courseOf({
    diagnosis: ['2020-01-01', 'active', { heavy: 'G', light: 'kappa' }],
    lines: [{ start: '2020-01-01' }],
    results: series('serum-m-protein', 'g/L', values),
  }).markers['serum-m-protein']

test('lowest is the smallest before, lowest confirmed what two successive samples both reached', () => {
  const marker = active({ '2020-01-01': '40', '2020-02-01': '12', '2020-03-01': '9', '2020-04-01': '11', '2020-05-01': '10', '2020-06-01': '30' })
  expect(marker.lowest.map(shownMark)).toEqual([
    null,
    '40 of 2020-01-01',
    '12 of 2020-02-01',
    '9 of 2020-03-01',
    '9 of 2020-03-01',
    '9 of 2020-03-01',
    '9 of 2020-03-01',
  ])
  expect(marker.lowestConfirmed.map(shownMark)).toEqual([
    null,
    '40 of 2020-01-01',
    '40 of 2020-01-01',
    '12 of 2020-02-01',
    '11 of 2020-04-01',
    '11 of 2020-04-01',
    '11 of 2020-04-01',
  ])
})

test('a value below a limit gives an interval; the smallest upper end is shown, the earliest when equal', () => {
  const marker = active({ '2020-01-01': '4', '2020-02-01': '<1', '2020-03-01': '0.8', '2020-04-01': '<1', '2020-05-01': '>3' })
  expect(marker.lowest.map(shownMark)).toEqual([
    null,
    '4 of 2020-01-01',
    '[0, 1] of 2020-02-01',
    '[0, 0.8] of 2020-03-01',
    '[0, 0.8] of 2020-03-01',
    '[0, 0.8] of 2020-03-01',
  ])
  expect(marker.lowestConfirmed.map(shownMark)).toEqual([
    null,
    '4 of 2020-01-01',
    '4 of 2020-01-01',
    '[0.8, 1] of 2020-02-01',
    '[0.8, 1] of 2020-02-01',
    '[0.8, 1] of 2020-02-01',
  ])
})

test('without a baseline the window is empty and nothing stands before the first sample to come', () => {
  const marker = active({ '2019-01-01': '40', '2020-03-01': '12' })
  expect(shownWindow(marker)).toEqual([])
  expect([marker.baseline, marker.lowest, marker.lowestConfirmed]).toEqual([null, [null], [null]])
})
