import { findingKey, givenAnswers, sameSubject } from '../review/index.ts'
import type { Assessment } from './assessment.ts'

/**
 * Everybody to whom something comes back, in order of name: who had decided on an open finding that a correction has made, changed or taken back since,
 * while nobody has reviewed it after that.
 */
export function comesBackTo({ open, changes, known }: Pick<Assessment, 'open' | 'changes' | 'known'>): readonly string[] {
  const persons = open.flatMap((finding) => {
    const decided = changes.get(finding)?.decisions ?? []
    const last = Math.max(0, ...decided.map(({ id }) => id))
    // That something was taken back is open only while nobody has reviewed it; a review of an earlier time it was taken back is no matter.
    const isReviewedSince =
      finding.rule !== 'reviewed-then-corrected' &&
      givenAnswers(known.decisions).some((given) => given.kind === 'review' && given.id > last && sameSubject(given.key, findingKey(finding)))
    return isReviewedSince ? [] : decided.map(({ by }) => by)
  })
  return [...new Set(persons)].toSorted()
}
