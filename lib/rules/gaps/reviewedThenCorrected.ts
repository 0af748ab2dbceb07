import type { Decision, FindingChange } from '../../results/index.ts'
import { correctionText, reportsWord } from '../correctionWords.ts'
import type { Finding } from '../finding.ts'
import { gap } from '../gap.ts'
import type { FollowUpRule } from '../rule.ts'

const DID: Partial<Record<Decision['kind'], string>> = { attribution: ', who recorded another cause', handover: ', who handed it to a physician' }

// Whoever excluded a report decided on that, not on the finding.
const onFinding = (decisions: readonly Decision[]) => decisions.filter(({ kind }) => kind !== 'exclusion')

/** Everybody who decided on it, each with their last decision: "the nurse on 2026-11-10". */
function reviewedBy(decisions: readonly Decision[]): string {
  const last = new Map(onFinding(decisions).map((decision) => [decision.by, decision]))
  return [...last.values()].map(({ by, on, kind }) => `${by} on ${on}${DID[kind] ?? ''}`).join('; ')
}

function told({ id, on, before, corrections, decisions }: FindingChange): readonly Finding[] {
  if (before === null) return []
  const { rule, since } = JSON.parse(before) as Finding
  const facts = {
    change: String(id),
    rule,
    foundSince: since,
    on,
    by: reportsWord(corrections),
    corrected: corrections.map(correctionText).join('; '),
    reviewed: reviewedBy(decisions),
  }
  return [gap({ rule: 'reviewed-then-corrected', window: 'within-7-days', since: on, facts })]
}

export const reviewedThenCorrected: FollowUpRule = {
  id: 'reviewed-then-corrected',
  asks: 'Did a corrected, final, cancelled or withdrawn result, or a revoked mapping, take back a finding that somebody had reviewed or attributed, and has nobody reviewed that since?',
  source: '(ours)',
  check: ({ changes }) => changes.filter(({ what, decisions }) => what === 'removed' && onFinding(decisions).length > 0).flatMap(told),
}
