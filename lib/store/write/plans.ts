import type { Day } from '../../time/index.ts'
import type { Connection } from '../connection.ts'
import type { StoredPlanVersion } from '../read/plans.ts'
import { planText } from '../rows/planVersion.ts'
import { insertSql } from './insert.ts'

/** A version to be proposed; the database gives it the next number. */
export type NewPlanVersion = Pick<StoredPlanVersion, 'basedOn' | 'values' | 'note' | 'proposedBy' | 'proposedAt' | 'from'>

const INSERT = insertSql('plan_version', ['version', 'based_on', 'state', 'payload', 'note', 'proposed_by', 'proposed_at', 'from_day'])

/** Keeps a proposal and returns its number. */
export function insertPlanVersion({ statement }: Connection, { basedOn, values, note, proposedBy, proposedAt, from }: NewPlanVersion): number {
  const version = statement<{ next: number }>('SELECT coalesce(max(version), 1) + 1 AS next FROM plan_version').get()?.next ?? 2
  statement(INSERT).run(version, basedOn, 'proposed', planText(values), note, proposedBy, proposedAt, from)
  return version
}

/** What a person decided about a proposal. */
export interface PlanDecision {
  readonly version: number
  readonly by: string
  readonly at: string
  readonly decision:
    | { readonly state: 'published'; readonly from: Day }
    | { readonly state: 'refused'; readonly reason: string }
    | { readonly state: 'withdrawn' }
}

const DECIDE = `UPDATE plan_version SET state = ?, decided_by = ?, decided_at = ?, decision_reason = ?, from_day = coalesce(?, from_day)
  WHERE version = ? AND state = 'proposed'`

/** Decides on a proposal. False where it was decided on already, so that two people cannot both decide. */
export function decidePlanVersion({ statement }: Connection, { version, by, at, decision }: PlanDecision): boolean {
  const reason = decision.state === 'refused' ? decision.reason : null
  const from = decision.state === 'published' ? decision.from : null
  return statement(DECIDE).run(decision.state, by, at, reason, from, version).changes === 1
}
