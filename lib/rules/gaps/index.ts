import type { FollowUpRule } from '../rule.ts'
import { confirmationOverdue } from './confirmationOverdue.ts'
import { dueInGrace } from './dueInGrace.ts'
import { heldResults } from './heldResults.ts'
import { noBaseline } from './noBaseline.ts'
import { noCourse } from './noCourse.ts'
import { overdue } from './overdue.ts'
import { reviewedThenCorrected } from './reviewedThenCorrected.ts'
import { typeMismatch } from './typeMismatch.ts'

/** What nobody has done yet: every rule of clinical.md 3.5, in the order of the specification, then one of ours. */
export const GAP_RULES: readonly FollowUpRule[] = [
  overdue,
  dueInGrace,
  confirmationOverdue,
  heldResults,
  noCourse,
  noBaseline,
  typeMismatch,
  reviewedThenCorrected,
]
