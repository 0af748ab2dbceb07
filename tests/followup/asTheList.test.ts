import fc from 'fast-check'
import { expect, test } from 'vitest'
import type { PlanState } from '../../lib/followup/index.ts'
import { type DueTest, planOn } from '../../lib/plan/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { addDays, type Day, day } from '../../lib/time/index.ts'
import { anyHistory, anyPlans, LONG } from './arbitrary.ts'
import { statesUntil } from './replay.ts'

const CUT_OFF = addDays(day('2025-01-01'), LONG)

const asked = (due: readonly DueTest[]) => due.map(({ daysLate: _, ...rest }) => rest)

function stateOn(states: readonly PlanState[], on: Day): PlanState | undefined {
  return states.findLast(({ from }) => from <= on)
}

test('law: on every day the audit has the due days, graces and reasons the list has, for any course under any plans', () => {
  fc.assert(
    fc.property(anyHistory, anyPlans, fc.array(fc.nat({ max: LONG }), { minLength: 5, maxLength: 5 }), (history, plans, days) => {
      const states = statesUntil(history, CUT_OFF, plans)
      const turns = states.flatMap(({ from }) => [from, addDays(from, -1)])
      for (const on of new Set([...turns, ...days.map((offset) => addDays(day('2025-01-01'), offset))])) {
        const listed = assess(history, planOn(plans, on), on)
        const state = stateOn(states, on)
        expect(asked(state?.due ?? [])).toEqual(asked(listed.due))
        if (state === undefined) continue
        const { phase, care, leftOn } = listed.course
        expect([state.phase, state.care, state.left !== null]).toEqual([phase?.phase ?? null, care, leftOn !== null])
      }
    }),
    { numRuns: 60 },
  )
}, 120_000)

test('law: states left out because they had ended change nothing of those that stand', () => {
  fc.assert(
    fc.property(anyHistory, anyPlans, fc.nat({ max: LONG }), (history, plans, offset) => {
      const since = addDays(day('2025-01-01'), offset)
      const all = statesUntil(history, CUT_OFF, plans)
      const later = statesUntil(history, CUT_OFF, plans, since)
      expect(later).toEqual(all.slice(all.length - later.length))
      const first = later[0]
      if (all[0] !== undefined && all[0].from <= since) expect(first !== undefined && first.from <= since).toBe(true)
    }),
    { numRuns: 40 },
  )
}, 120_000)
