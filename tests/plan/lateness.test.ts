import { expect, test } from 'vitest'
import { DEFAULT_PLAN, type DueTest, graceDays, intervalText, TEST_GROUPS } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'
import { dueOn } from './due.ts'
import { blood } from './visits.ts'

test.each([
  [{ days: 28 }, 7],
  [{ days: 84 }, 21],
  [{ days: 30 }, 7],
  [{ days: 119 }, 29],
  [{ days: 120 }, 30],
  [{ days: 400 }, 30],
  [{ months: 3 }, 22],
  [{ months: 6 }, 30],
] as const)('the grace of %o is a quarter, rounded down, at most 30 days', (interval, days) => {
  expect(graceDays(DEFAULT_PLAN.grace, day('2023-01-01'), interval)).toBe(days)
})

function serumOn(today: string): DueTest | undefined {
  const words = { diagnosis: ['2024-01-01', 'active'], lines: [{ start: '2024-01-01' }], results: blood('2024-01-01') } as const
  return dueOn(words, today)[0]
}

test.each([
  ['2024-01-28', 0],
  ['2024-01-29', 0],
  ['2024-01-30', 1],
  ['2024-02-12', 14],
])('on %s the test due on 2024-01-29 is %i days late', (today, daysLate) => {
  expect(serumOn(today)).toEqual({
    group: 'serum-m-protein',
    lastDoneOn: '2024-01-01',
    dueOn: '2024-01-29',
    graceEndsOn: '2024-02-05',
    daysLate,
    intervalDays: 28,
    because: 'active, on treatment: 28 days after the one of 2024-01-01; each cycle (common practice)',
  })
})

test('a whole interval of calendar months is counted from the due day', () => {
  const [due] = dueOn({ diagnosis: ['2023-01-31', 'mgus'], results: blood('2023-08-31') }, '2023-09-01')
  expect(due).toMatchObject({ dueOn: '2024-08-31', intervalDays: 365 })
})

test('every row names its source, and one that has none says so', () => {
  for (const row of DEFAULT_PLAN.rows) expect(row.source).toMatch(/IMWG|EHA-ESMO|ASCO|\((common practice|ours)\)/)
})

test('one entry a group, in the order of the groups', () => {
  const words = {
    diagnosis: ['2024-01-01', 'active'],
    lines: [{ start: '2024-01-01' }],
    boneAgents: [['2024-01-03']],
    results: blood('2024-01-01'),
  } as const
  const groups = dueOn(words, '2024-01-10').map((due) => due.group)
  expect(groups).toEqual(TEST_GROUPS.filter((group) => groups.includes(group)))
  expect(new Set(groups).size).toBe(groups.length)
})

test('intervals in words', () => {
  expect([intervalText({ days: 28 }), intervalText({ months: 1 })]).toEqual(['28 days', '1 month'])
})
