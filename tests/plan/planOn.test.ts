import fc from 'fast-check'
import { expect, test } from 'vitest'
import { DEFAULT_PLAN, lastPlan, planOfValues, planOn, valuesOf } from '../../lib/plan/index.ts'
import { addDays, day } from '../../lib/time/index.ts'

const version = (name: string, from: string) => planOfValues(valuesOf(DEFAULT_PLAN), { version: name, from: day(from) })
const PUBLISHED = [version('2', '2026-03-01'), version('5', '2026-09-01'), version('6', '2026-09-01')]

test.each([
  ['1999-01-01', '1', 'before any version the one Lowmark comes with'],
  ['2026-02-28', '1', 'the day before the first version begins'],
  ['2026-03-01', '2', 'on its first day'],
  ['2026-08-31', '2', 'on its last day'],
  ['2026-09-01', '6', 'of two that begin on the same day the one published later'],
  ['2099-01-01', '6', 'long after'],
])('on %s version %s is in force: %s', (on, expected) => {
  expect(planOn(PUBLISHED, day(on)).version).toBe(expected)
})

test('without a published version it is the one Lowmark comes with, on every day', () => {
  expect(planOn([], day('2026-03-01'))).toBe(DEFAULT_PLAN)
  expect(lastPlan([])).toBe(DEFAULT_PLAN)
})

test('the last plan is the one that begins last, begun or not', () => {
  expect(lastPlan(PUBLISHED).version).toBe('6')
  expect(lastPlan(PUBLISHED.slice(0, 2)).version).toBe('5')
})

test('what was in force on a day stays so, whatever is published from a later day on', () => {
  const days = fc.integer({ min: 0, max: 400 }).map((count) => addDays(day('2026-01-01'), count))
  fc.assert(
    fc.property(fc.array(days, { maxLength: 6 }), days, fc.integer({ min: 1, max: 50 }), (begins, on, later) => {
      const plans = begins.toSorted().map((from, index) => version(String(index + 2), from))
      const more = [...plans, version('99', addDays(on, later))]
      expect(planOn(more, on).version).toBe(planOn(plans, on).version)
    }),
  )
})
