import { type FollowUpPlan, type PlanValues, planOfValues } from '../../plan/index.ts'
import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import { type PlanState, planValuesOf } from '../rows/planVersion.ts'

/** A version of the follow-up plan with what became of it. */
export interface StoredPlanVersion {
  readonly version: number
  readonly basedOn: number
  readonly state: PlanState
  readonly values: PlanValues
  /** The values as stored, for their digest. */
  readonly payload: string
  readonly note: string
  readonly proposedBy: string
  readonly proposedAt: string
  readonly decidedBy: string | null
  readonly decidedAt: string | null
  /** The day wished for; of a published version the first day it is followed. */
  readonly from: Day
  readonly decisionReason: string | null
}

type Row = Omit<StoredPlanVersion, 'values'>

const SELECT = `SELECT version, based_on AS basedOn, state, payload, note, proposed_by AS proposedBy, proposed_at AS proposedAt, decided_by AS decidedBy,
  decided_at AS decidedAt, from_day AS "from", decision_reason AS decisionReason FROM plan_version`

/** Every version after the first, proposed, published or not, by number. */
export function planVersions({ statement }: Connection): StoredPlanVersion[] {
  return statement<Row>(`${SELECT} ORDER BY version`)
    .all()
    .map((row) => ({ ...row, values: planValuesOf(row.payload) }))
}

/** One version; null where the number is nobody's. */
export function planVersionOf({ statement }: Connection, version: number): StoredPlanVersion | null {
  const row = statement<Row>(`${SELECT} WHERE version = ?`).get(version)
  return row === undefined ? null : { ...row, values: planValuesOf(row.payload) }
}

// A published text is never changed (the database refuses it), so it is read once a connection, not once an evaluation.
const KNOWN = new WeakMap<Connection, Map<string, FollowUpPlan>>()

/** The published versions in the order of their publication: each was drawn from the one before, so it has a higher number, whatever the clock said. */
export function publishedPlans(connection: Connection): FollowUpPlan[] {
  const known = KNOWN.get(connection) ?? new Map<string, FollowUpPlan>()
  KNOWN.set(connection, known)
  const rows = connection.statement<Row>(`${SELECT} WHERE state = 'published' ORDER BY version`).all()
  return rows.map(({ version, from, payload }) => {
    const key = `${version} ${from} ${payload}`
    const plan = known.get(key) ?? planOfValues(planValuesOf(payload), { version: String(version), from })
    known.set(key, plan)
    return plan
  })
}
