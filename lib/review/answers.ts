import type { Decision, DecisionOf } from '../results/index.ts'
import type { Finding, RuleId } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { findingKey, sameSubject } from './findingKey.ts'

/** A review that answers a finding until the day it is brought back. */
export type Answer = DecisionOf<'review'>

/** A danger is never held back by a review, nor attributed away (clinical.md 3.3, 3.7). */
export function isDanger(rule: RuleId): boolean {
  return rule.startsWith('danger-')
}

const reviewsOf = (decisions: readonly Decision[]): readonly Answer[] =>
  decisions.filter((decision) => decision.kind === 'review').toSorted((a, b) => b.id - a.id)

/** The review that answers a current finding on a day: the last one of exactly this evidence, before its bring-back day. Null while it is open. */
export function answerTo(finding: Finding, decisions: readonly Decision[], today: Day): Answer | null {
  if (isDanger(finding.rule)) return null
  const key = findingKey(finding)
  const last = reviewsOf(decisions).find((review) => review.key === key)
  return last !== undefined && today < last.bringBackOn ? last : null
}

/** Reviews of a finding, of whatever evidence, made while it lasted and other than the one that answers it now; latest first. */
export function pastAnswersTo(finding: Finding, decisions: readonly Decision[], now: Answer | null): readonly Answer[] {
  const { since, endedOn } = finding
  const key = findingKey(finding)
  return reviewsOf(decisions).filter(
    (review) => review.id !== now?.id && sameSubject(review.key, key) && review.on >= since && (endedOn === null || review.on <= endedOn),
  )
}

/** Current findings, most urgent first, parted into those that are open and those a review answers. Each part keeps the order. */
export function partAnswered(
  current: readonly Finding[],
  decisions: readonly Decision[],
  today: Day,
): { readonly open: readonly Finding[]; readonly answers: ReadonlyMap<Finding, Answer> } {
  const answers = new Map<Finding, Answer>()
  for (const finding of current) {
    const answer = answerTo(finding, decisions, today)
    if (answer !== null) answers.set(finding, answer)
  }
  return { open: current.filter((finding) => !answers.has(finding)), answers }
}
