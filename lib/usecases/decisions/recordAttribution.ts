import { isDanger } from '../../review/index.ts'
import { isAttributable, shownOn, valuesNow } from '../../standing/index.ts'
import { addDays, type Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { currentFinding, type FindingWish } from './currentFinding.ts'
import { type Deciding, decide, refuse } from './decide.ts'

export interface AttributionWish extends FindingWish {
  readonly patientId: string
  readonly cause: string
  /** The stamp of the consequence that was shown; absent where none was. */
  readonly shown?: string | undefined
}

export function decideAttribution(wish: FindingWish, today: Day): Deciding<{ readonly until: Day }> {
  const { rule, key } = wish
  return (assessment) => {
    const finding = currentFinding(assessment, wish)
    if (isDanger(finding.rule)) refuse('invalid', 'A danger finding cannot be attributed to another cause: it has to be looked at.')
    if (!isAttributable(finding)) refuse('invalid', 'Another cause can be recorded for organ damage only, and this finding is none.')
    const holding = assessment.attributions.get(finding)
    if (holding !== undefined) refuse('invalid', `Another cause is recorded already and holds until ${holding.until}; withdraw it first.`)
    return {
      decision: { kind: 'attribution', rule, key, shownOn: shownOn(finding), values: valuesNow(finding) },
      before: null,
      event: (logged) => ({ action: 'attribution-recorded', ...logged }),
      value: { until: addDays(today, assessment.course.thresholds.attributionDays) },
    }
  }
}

/**
 * Records another cause a physician names for a current organ-damage finding: it stays and drops to the next visit, until the value is worse or the
 * days have passed. Answers the day it comes back at the latest. Danger findings are refused.
 */
export function recordAttribution(call: Call, wish: AttributionWish): Promise<Outcome<{ readonly until: Day }>> {
  const { patientId, cause, shown } = wish
  return decide(call, { permission: 'attribution.write', patientId, typed: cause, called: 'The cause', shown }, decideAttribution(wish, call.today))
}
