import type { Period } from '../../followup/index.ts'
import { DEFAULT_PLAN, type FollowUpPlan, planOfValues } from '../../plan/index.ts'
import { earlierDay, parseDay } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'

/** Of what an audit is asked. Days are ISO text, as typed. */
export interface FollowUpWish {
  readonly from: string
  readonly to: string
  /** Data up to this day count: what was collected, recorded and decided by then. Null: today. */
  readonly cutOff: string | null
  /** A version of the plan the same period is also worked out under, as if it had always been in force; null for none. */
  readonly whatIf: number | null
}

/** A wish that can be fulfilled. */
export interface ReadFollowUpWish {
  readonly period: Period
  readonly whatIf: FollowUpPlan | null
}

const invalid = (reason: string) => ({ ok: false, kind: 'invalid', reason }) as const

/** The plan of one version, in force from before any course. */
function versionAlone(call: Call, version: number): FollowUpPlan | null {
  if (String(version) === DEFAULT_PLAN.version) return DEFAULT_PLAN
  const stored = call.store.reader.planVersion(version)
  return stored === null ? null : planOfValues(stored.values, { version: String(version), from: DEFAULT_PLAN.from })
}

/** What exactly is asked; or why it cannot be. */
export function readFollowUpWish(call: Call, { from: first, to: last, cutOff: until, whatIf: version }: FollowUpWish): Outcome<ReadFollowUpWish> {
  const [from, to] = [parseDay(first), parseDay(last)]
  if (from === null) return invalid(`"${first}" is not a day written YYYY-MM-DD.`)
  if (to === null) return invalid(`"${last}" is not a day written YYYY-MM-DD.`)
  if (to < from) return invalid(`The period ends on ${to}, before it begins on ${from}.`)
  const asked = until === null ? call.today : parseDay(until)
  if (asked === null) return invalid(`"${until}" is not a day written YYYY-MM-DD.`)
  const cutOff = earlierDay(asked, call.today)
  if (from > cutOff) return invalid(`Nothing can be said of a period that begins on ${from}: data count up to ${cutOff}.`)
  const whatIf = version === null ? null : versionAlone(call, version)
  if (version !== null && whatIf === null) return { ok: false, kind: 'not-found', reason: `No version of the plan has the number ${version}.` }
  return { ok: true, value: { period: { from, to, cutOff }, whatIf } }
}
