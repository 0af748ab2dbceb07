import { expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { criterionFor, referenceFor } from '../../lib/rules/criterion/criterionFor.ts'
import { day } from '../../lib/time/index.ts'
import { decimal, decimalText } from '../../lib/units/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'
import { active, every4Weeks, smouldering } from './patients.ts'
import { TODAY } from './ruleTable.ts'

const courseOf = (given: HistoryWords) => traceCourse(history(given), day(TODAY))
const level = (given: HistoryWords, marker: Parameters<typeof criterionFor>[1], reference: string | null) => {
  const criterion = criterionFor(courseOf(given), marker, reference === null ? null : decimal(reference))
  return criterion === null ? null : [decimalText(criterion.at), criterion.strict, criterion.low]
}

test.each([
  ['serum-m-protein', '10', ['15', false, false]],
  ['serum-m-protein', '40', ['50', false, false]],
  ['serum-m-protein', '50', ['60', false, false]],
  ['urine-m-protein', '300', ['500', false, false]],
  ['dflc', '80', ['180', true, false]],
  ['dflc', '500', ['625', false, false]],
  ['serum-m-protein', null, null],
  ['haemoglobin', null, ['100', true, true]],
  ['calcium', null, ['2.75', true, false]],
  ['creatinine', null, ['257', false, false]],
] as const)('active disease, %s from %s', (marker, reference, expected) => {
  expect(level(active(every4Weeks('creatinine', 'umol/L', ['80'])), marker, reference)).toEqual(expected)
})

test.each([
  ['serum-m-protein', '10', null],
  ['creatinine', null, ['177', true, false]],
  ['involved-ratio', null, ['100', false, false]],
] as const)('smouldering, %s from %s', (marker, reference, expected) => {
  expect(level(smouldering([]), marker, reference)).toEqual(expected)
})

test('the current value is held against the lowest one before it', () => {
  const course = courseOf(active(every4Weeks('serum-m-protein', 'g/L', ['30', '12', '20'])))
  const held = referenceFor(course, 'serum-m-protein')
  expect([held?.label, held?.sample.on, held === null ? null : decimalText(held.value)]).toEqual(['lowest', '2024-07-01', '12'])
  expect(referenceFor(course, 'creatinine')).toBe(null)
})
