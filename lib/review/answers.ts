import type { Decision } from '../results/index.ts'
import type { Finding, RuleId } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { findingKey, sameSubject } from './findingKey.ts'
import { type Answer, everGiven, type Given, givenAnswers, type Handover } from './given.ts'

/** A danger is never held back by a review, nor attributed away (clinical.md 3.3, 3.7). */
export function isDanger(rule: RuleId): boolean {
  return rule.startsWith('danger-')
}

/** True for what was given while a finding lasted, whatever its evidence then. */
function isOf({ since, endedOn, ...rest }: Finding, given: Given): boolean {
  const lasted = given.on >= since && (endedOn === null || given.on <= endedOn)
  return lasted && sameSubject(given.key, findingKey({ since, endedOn, ...rest }))
}

/** What was handed to a physician of a current finding and is answered by none yet, new evidence or not; null where nothing is. */
export function handoverOf(finding: Finding, decisions: readonly Decision[]): Handover | null {
  const given = givenAnswers(decisions)
  const last = given.find((one) => one.kind === 'handover' && isOf(finding, one))
  if (last?.kind !== 'handover') return null
  return given.some((one) => one.kind === 'review' && one.handoverId === last.id) ? null : last
}

/** The last review of exactly this evidence, whether it still holds or not. */
function lastReviewOf(finding: Finding, decisions: readonly Decision[]): Answer | null {
  const key = findingKey(finding)
  return givenAnswers(decisions).find((given): given is Answer => given.kind === 'review' && given.key === key) ?? null
}

/**
 * The review that answers a current finding on a day: the last one of exactly this evidence, before its bring-back day. Null while it is open; what is
 * handed to a physician stays open until a physician answers it.
 */
export function answerTo(finding: Finding, decisions: readonly Decision[], today: Day): Answer | null {
  if (isDanger(finding.rule) || handoverOf(finding, decisions) !== null) return null
  const last = lastReviewOf(finding, decisions)
  return last !== null && today < last.bringBackOn ? last : null
}

/**
 * The last review of exactly the evidence of a danger, which stays open whatever is noted: whoever reads the list next has to see that somebody looked. Null
 * for every other finding, and where it was handed to a physician since.
 */
export function noteOf(finding: Finding, decisions: readonly Decision[]): Answer | null {
  return !isDanger(finding.rule) || handoverOf(finding, decisions) !== null ? null : lastReviewOf(finding, decisions)
}

/**
 * Reviews and handovers of a finding, of whatever evidence, made while it lasted, other than those that stand now; latest first. With `takenBack` also
 * those somebody took back.
 */
export function pastAnswersTo(finding: Finding, decisions: readonly Decision[], now: readonly (Given | null)[], takenBack = false): readonly Given[] {
  const standing = new Set(now.map((given) => given?.id))
  return (takenBack ? everGiven : givenAnswers)(decisions).filter((given) => !standing.has(given.id) && isOf(finding, given))
}

/**
 * The last answer to a current finding where it can be taken back: nobody gave another since, and it is of the evidence of now, or handed over still. Null
 * where there is none.
 */
export function lastToTakeBack(finding: Finding, decisions: readonly Decision[]): Given | null {
  const key = findingKey(finding)
  const last = givenAnswers(decisions).find((given) => sameSubject(given.key, key))
  if (last === undefined) return null
  return last.key === key || last.id === handoverOf(finding, decisions)?.id ? last : null
}

/** Current findings, most urgent first, parted into those that are open and those a review answers. Each part keeps the order. */
export function partAnswered(
  current: readonly Finding[],
  decisions: readonly Decision[],
  today: Day,
): { readonly open: readonly Finding[]; readonly answers: ReadonlyMap<Finding, Answer>; readonly handovers: ReadonlyMap<Finding, Handover> } {
  const answers = new Map<Finding, Answer>()
  const handovers = new Map<Finding, Handover>()
  for (const finding of current) {
    const answer = answerTo(finding, decisions, today)
    if (answer !== null) answers.set(finding, answer)
    const handover = handoverOf(finding, decisions)
    if (handover !== null) handovers.set(finding, handover)
  }
  return { open: current.filter((finding) => !answers.has(finding)), answers, handovers }
}
