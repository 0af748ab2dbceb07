import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  addCounts,
  auditPatient,
  countPatient,
  DIMENSIONS,
  figuresOf,
  LEAST_SHOWN,
  noCounts,
  OTHERS,
  type PatientAudit,
} from '../../lib/followup/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
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
