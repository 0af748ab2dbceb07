import { expect, test } from 'vitest'
import { type EarlierVersion, patientCharts, patientCourse } from '../../lib/charts/index.ts'
import type { Decision } from '../../lib/results/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, labResult, type ResultMore } from '../builders/history.ts'
import { assessed } from './assessed.ts'

const WORDS: HistoryWords = {
  diagnosis: ['2024-01-01', 'active'],
  lines: [{ start: '2024-01-02' }],
  results: [
    ['2024-01-01', 'haemoglobin', '110', 'g/L'],
    ['2024-03-01', 'haemoglobin', '41', 'g/L'],
    ['2024-05-01', 'haemoglobin', '104', 'g/L', { status: 'corrected', version: 2 }],
  ],
}

const EXCLUSION: Decision = {
  kind: 'exclusion',
  id: 1,
  resultId: 2,
  at: '2024-06-01T08:00:00Z',
  on: day('2024-06-01'),
  by: 'someone',
  text: 'typed why',
}

const version = (value: string, id: number, by: number, more: ResultMore = {}, withdrawn = false): EarlierVersion => ({
  result: labResult(['2024-05-01', 'haemoglobin', value, 'g/L', more], id),
  replacedBy: { id: by, withdrawn },
})

function haemoglobin(words: HistoryWords, earlier: readonly EarlierVersion[] = []) {
  const assessment = assessed(words, '2024-07-01')
  const found = patientCourse(assessment, patientCharts(assessment), earlier).panels.find(({ id }) => id === 'haemoglobin')
  if (found === undefined) throw new Error('a panel was expected')
  return found
}

test('an excluded value is in no line, stays visible, and the typed reason is not in the plan', () => {
  const panel = haemoglobin({ ...WORDS, decisions: [EXCLUSION] })
  expect(panel.series[0]?.points.map(({ label }) => label)).toEqual(['110', '104'])
  expect(panel.leftOut).toEqual([{ day: 60, at: 41, label: '41', why: 'excluded' }])
  expect(JSON.stringify(panel)).not.toContain('typed why')
})

test('a corrected value carries what was said before, once where it said something else', () => {
  const last = haemoglobin(WORDS, [version('140', 9, 3), version('104', 8, 3)]).series[0]?.points.at(-1)
  expect(last).toMatchObject({ label: '104', corrected: true, was: [{ day: 121, at: 140, label: '140' }] })
})

test('a value the laboratory withdrew is left out and stays visible; a correction of another result touches nothing', () => {
  const panel = haemoglobin(WORDS, [version('99', 9, 77, {}, true), version('98', 10, 78)])
  expect(panel.leftOut).toMatchObject([{ at: 99, why: 'withdrawn' }])
  expect(panel.series[0]?.points.at(-1)?.was).toEqual([])
})
