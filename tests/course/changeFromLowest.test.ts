import { expect, test } from 'vitest'
import { changeFromLowest } from '../../lib/course/index.ts'
import { series } from '../builders/history.ts'
import { courseOf } from './shown.ts'

const change = (...values: string[]) => {
  const dated = Object.fromEntries(values.map((value, at) => [`2020-0${at + 1}-01`, value]))
  return changeFromLowest(
    courseOf({ diagnosis: ['2020-01-01', 'active'], lines: [{ start: '2020-01-01' }], results: series('serum-m-protein', 'g/L', dated) }).markers[
      'serum-m-protein'
    ],
  )
}

test.each([
  ['exact', ['40', '1.8', '2.3'], { absolute: '0.5', percent: '27.8', why: null }],
  ['half away from zero, up', ['8', '8.01'], { absolute: '0.01', percent: '0.1', why: null }],
  ['half away from zero, at a tie', ['40', '40.02'], { absolute: '0.02', percent: '0.1', why: null }],
  ['half away from zero, down', ['40', '39.98'], { absolute: '-0.02', percent: '-0.1', why: null }],
  ['below the tie', ['40', '40.019'], { absolute: '0.019', percent: '0.0', why: null }],
  ['lowest not detected', ['40', 'not detected', '3'], { absolute: '3', percent: null, why: 'lowest value not detected' }],
  ['lowest 0', ['40', '0', '3'], { absolute: '3', percent: null, why: 'lowest value not above 0' }],
  ['lowest below a limit', ['40', '<1', '3'], { absolute: '2', percent: null, why: 'between 2 and 3 g/L: a value was reported as a limit' }],
  ['current above a limit', ['40', '>60'], { absolute: '20', percent: null, why: 'at least 20 g/L: a value was reported as a limit' }],
  ['baseline only', ['40'], { absolute: null, percent: null, why: 'no sample since the baseline' }],
  ['nothing', [], { absolute: null, percent: null, why: 'no baseline' }],
] as const)('%s', (_name, values, expected) => {
  expect(change(...values)).toEqual(expected)
})
