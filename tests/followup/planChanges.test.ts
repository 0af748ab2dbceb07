import { expect, test } from 'vitest'
import { planChanges } from '../../lib/followup/index.ts'
import { DEFAULT_PLAN, planOfValues, valuesOf } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'

const plan = (version: string, from: string) => planOfValues(valuesOf(DEFAULT_PLAN), { version, from: day(from) })
const published = [plan('2', '2026-01-01'), plan('3', '2026-03-10'), plan('4', '2026-03-10'), plan('5', '2026-06-30'), plan('6', '2026-07-01')]
const changes = (from: string, to: string, cutOff: string) =>
  planChanges(published, { from: day(from), to: day(to), cutOff: day(cutOff) }).map(({ version, from: on }) => `${version} ${on}`)

test('a plan that was in force on the first day is no change, one that begins on the last day is', () => {
  expect(changes('2026-01-01', '2026-06-30', '2026-12-31')).toEqual(['4 2026-03-10', '5 2026-06-30'])
  expect(changes('2025-12-31', '2026-06-29', '2026-12-31')).toEqual(['2 2026-01-01', '4 2026-03-10'])
})

test('of two that begin on one day the one published later counts', () => {
  expect(changes('2026-03-01', '2026-03-31', '2026-12-31')).toEqual(['4 2026-03-10'])
})

test('one that begins after the cut-off changed nothing that is told', () => {
  expect(changes('2026-01-01', '2026-07-31', '2026-06-29')).toEqual(['4 2026-03-10'])
  expect(changes('2026-01-01', '2026-07-31', '2026-06-30')).toEqual(['4 2026-03-10', '5 2026-06-30'])
})
