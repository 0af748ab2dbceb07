import type { Thresholds } from '../course/index.ts'
import { addDays, type Day } from '../time/index.ts'
import type { Finding } from './finding.ts'

/** True for a finding of which a second sample is awaited while it is unconfirmed. */
export function asksForSecond({ rule }: Pick<Finding, 'rule'>): boolean {
  return rule.startsWith('pd-') || rule.startsWith('mde-') || rule === 'relapse-from-cr' || rule === 'light-chain-escape'
}

/**
 * The last day on which the second sample of an unconfirmed finding is not yet overdue. Null where none is awaited: a rise shown by two samples
 * and held only against a lowest value reached once has its second sample.
 */
export function secondExpectedBy(finding: Finding, { secondSampleDays }: Pick<Thresholds, 'secondSampleDays'>): Day | null {
  if (finding.endedOn !== null || finding.state !== 'unconfirmed' || !asksForSecond(finding)) return null
  if (finding.cautions.includes('lowest-not-confirmed')) return null
  return addDays((finding.facts.on ?? finding.since) as Day, secondSampleDays)
}
