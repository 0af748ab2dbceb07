import { expect, test } from 'vitest'
import { day } from '../../../lib/time/index.ts'
import { nextDueOn, overdueOn } from '../../../lib/usecases/list/dueOn.ts'

const kept = (dueOn: string, graceEndsOn: string) => ({ group: 'chemistry', lastDoneOn: null, dueOn: day(dueOn), graceEndsOn: day(graceEndsOn) })
const MARCH = kept('2026-03-01', '2026-03-08')
const MAY = kept('2026-05-01', '2026-05-22')

test.each([
  ['2026-03-01', '2026-03-01', 0, 'on its due day a test is next'],
  ['2026-03-08', '2026-03-01', 0, 'in its grace it still is'],
  ['2026-03-09', '2026-05-01', 1, 'once overdue the other one is next'],
  ['2026-05-23', null, 2, 'with all of them overdue none is'],
])('on %s the next due day is %s and %i tests are overdue: %s', (today, next, overdue, _why) => {
  expect(nextDueOn([MAY, MARCH], day(today))).toBe(next)
  expect(overdueOn([MAY, MARCH], day(today))).toHaveLength(overdue)
})

test('days late count from the due day', () => {
  expect(overdueOn([MARCH], day('2026-03-11'))).toEqual([{ group: 'chemistry', dueOn: '2026-03-01', daysLate: 10 }])
})
