import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  addCounts,
  auditPatient,
  countPatient,
  DIMENSIONS,
  type Flagged,
  figuresOf,
  LEAST_SHOWN,
  noCounts,
  OTHERS,
  type PatientAudit,
  WAITING,
  type WaitingKind,
  waitingOf,
} from '../../lib/followup/index.ts'
import { addDays, type Day, day } from '../../lib/time/index.ts'
import { anyHistory, anyPlans, LONG } from './arbitrary.ts'
import { REPEATS } from './replay.ts'

const FIRST = day('2025-01-01')

/** Any cohort, audited over any period within its data under any plans. */
const anyAudit = fc
  .tuple(fc.array(anyHistory, { maxLength: 8 }), anyPlans, fc.nat({ max: LONG }), fc.nat({ max: LONG }), fc.nat({ max: LONG }))
  .map(([histories, plans, a, b, cut]) => {
    const [from, to] = [addDays(FIRST, Math.min(a, b)), addDays(FIRST, Math.max(a, b))]
    const period = { from, to, cutOff: addDays(FIRST, cut) }
    const none = { ...REPEATS, flagged: () => [] }
    return { period, audits: histories.map((history) => auditPatient(history, plans, period, none)) }
  })

function counted(audits: readonly PatientAudit[]) {
  const counts = noCounts()
  for (const audit of audits) countPatient(counts, audit)
  return counts
}

test('law: on time + late + missed = due, for the whole and for any split into groups, whose rows add up to the whole', () => {
  fc.assert(
    fc.property(anyAudit, ({ period, audits }) => {
      const { onTime: whole, by, pending, excluded } = figuresOf(period, counted(audits), { held: [], intake: new Map() })
      const occasions = audits.flatMap((audit) => audit.occasions)
      const excludedTests = Object.values(excluded).reduce((sum, count) => sum + count, 0)
      expect(whole.due + pending + excludedTests).toBe(occasions.length)
      for (const rows of [[whole], ...DIMENSIONS.map((dimension) => by[dimension])]) {
        for (const { due, onTime, late, missed } of rows) expect(onTime + late + missed).toBe(due)
        for (const part of ['due', 'onTime', 'late', 'missed'] as const) {
          expect(rows.reduce((sum, row) => sum + row[part], 0)).toBe(whole[part])
        }
      }
    }),
    { numRuns: 60 },
  )
}, 120_000)

test('law: no row of a table stands for fewer than five tests, or for one small group, unless it is the whole', () => {
  fc.assert(
    fc.property(anyAudit, ({ period, audits }) => {
      const counts = counted(audits)
      const { by, onTime } = figuresOf(period, counts, { held: [], intake: new Map() })
      for (const dimension of DIMENSIONS) {
        for (const { key, keys, due } of by[dimension]) {
          expect(due >= LEAST_SHOWN || due === onTime.due).toBe(true)
          expect(keys.length > 1 || key !== OTHERS || due === onTime.due).toBe(true)
        }
      }
    }),
    { numRuns: 60 },
  )
}, 120_000)

test('law: a cohort counted in two parts adds up to the same, wherever it is cut and in whatever order', () => {
  fc.assert(
    fc.property(anyAudit, fc.nat({ max: 8 }), ({ period, audits }, cut) => {
      const [first, second] = [counted(audits.slice(0, cut)), counted(audits.slice(cut))]
      const sum = noCounts()
      addCounts(sum, second)
      addCounts(sum, first)
      const rows = { held: [], intake: new Map<number, number>() }
      expect(figuresOf(period, sum, rows)).toEqual(figuresOf(period, counted(audits), rows))
    }),
    { numRuns: 40 },
  )
}, 120_000)

test('law: what waits is as much as the figures count, nothing of it before the data and no wait below nothing', () => {
  const anyFlagged = fc.array(
    fc.record({
      rule: fc.constantFrom('pd-serum', 'mde-calcium'),
      since: fc.nat({ max: LONG }).map((days) => addDays(FIRST, days)),
      ends: fc.option(fc.nat({ max: 400 })),
      answered: fc.option(fc.nat({ max: 400 })),
      needsSecond: fc.boolean(),
      second: fc.option(fc.nat({ max: 400 })),
    }),
    { maxLength: 4 },
  )
  fc.assert(
    fc.property(anyAudit, anyFlagged, ({ audits }, found) => {
      const on = (since: Day, days: number | null) => (days === null ? null : addDays(since, days))
      const flagged = found.map(({ rule, since, ends, answered, needsSecond, second }): Flagged => {
        const [endedOn, answeredOn, secondOn] = [on(since, ends), on(since, answered), on(since, second)]
        return { rule, since, endedOn, answeredOn, needsSecond, secondOn: needsSecond ? secondOn : null, overturned: null }
      })
      const withFindings = audits.map((audit) => ({ ...audit, flagged }))
      const { overdueAges, flagged: counts } = counted(withFindings)
      const waiting = (kind: WaitingKind) => withFindings.flatMap((audit) => waitingOf(audit, kind))
      expect(waiting('overdue').map(({ days }) => days)).toEqual(overdueAges)
      expect(waiting('unanswered')).toHaveLength(counts.found - counts.answered)
      expect(waiting('no-second').map(({ days }) => days)).toEqual(counts.toRepeat.filter(({ over }) => !over).map(({ days }) => days))
      for (const kind of WAITING) for (const { days } of waiting(kind)) expect(days).toBeGreaterThanOrEqual(0)
    }),
    { numRuns: 40 },
  )
}, 120_000)

test('law: a sample does at most one occasion of a group, and each due day of a group is judged once', () => {
  fc.assert(
    fc.property(anyAudit, ({ audits }) => {
      for (const { occasions } of audits) {
        const done = occasions.filter(({ doneOn }) => doneOn !== null).map(({ group, doneOn }) => `${group} ${doneOn}`)
        expect(new Set(done).size).toBe(done.length)
        const due = occasions.map(({ group, dueOn }) => `${group} ${dueOn}`)
        expect(new Set(due).size).toBe(due.length)
      }
    }),
    { numRuns: 60 },
  )
}, 120_000)
