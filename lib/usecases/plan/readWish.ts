import { type FollowUpPlan, lastPlan, PLAN_CHOICES, type PlanValues, planDifferences, readPlanValues, valuesOf } from '../../plan/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { readBeginning } from './beginsOn.ts'

/** What a physician would change: places of the plan with what they would be set to, from when on, and the version the numbers were drawn from. */
export interface PlanWish {
  readonly changes: Readonly<Record<string, unknown>>
  readonly from: string
  readonly basedOn: number
}

/** A wish that can be fulfilled. */
export interface ReadWish {
  readonly last: FollowUpPlan
  readonly values: PlanValues
  readonly from: Day
}

export interface FieldProblem {
  readonly field: string
  readonly says: string
}

const NAMES: ReadonlyMap<string, string> = new Map([
  ...PLAN_CHOICES.map(({ id, about, asks }) => [id, `"${about}: ${asks}"`] as const),
  ['from', 'The first day'],
  ['note', 'The note'],
  ['reason', 'The reason'],
])

/** A refusal that names every field at once. */
export function refusedFields(fields: readonly FieldProblem[]): Extract<Outcome<never>, { ok: false }> {
  const said = fields.map(({ field, says }) => `${NAMES.get(field) ?? field} ${says}.`)
  return { ok: false, kind: 'invalid', reason: `Nothing was changed. ${said.join(' ')}`, fields }
}

/** Reads a wish against the version that begins last; `more` are problems found besides, told together with these. */
export function readWish(call: Call, { changes, from, basedOn }: PlanWish, more: readonly FieldProblem[] = []): Outcome<ReadWish> {
  const last = lastPlan(call.store.reader.publishedPlans())
  if (Number(last.version) !== basedOn) {
    const reason = `Version ${last.version} was published meanwhile, and these numbers were drawn from version ${basedOn}. Open the plan again and begin from it.`
    return { ok: false, kind: 'invalid', reason }
  }
  const read = readPlanValues({ ...valuesOf(last), ...changes })
  const begins = readBeginning(from, last, call.today)
  const fields = [
    ...(read.ok ? [] : read.problems.map(({ id, says }) => ({ field: id, says }))),
    ...('problem' in begins ? [{ field: 'from', says: begins.problem }] : []),
    ...more,
  ]
  if (!read.ok || 'problem' in begins || fields.length > 0) return refusedFields(fields)
  if (planDifferences(valuesOf(last), read.values).length === 0) {
    return { ok: false, kind: 'invalid', reason: `Nothing is changed: every number is that of version ${last.version}.` }
  }
  return { ok: true, value: { last, values: read.values, from: begins.day } }
}
