import type { Decision, DecisionOf } from '../results/index.ts'
import { sameSubject } from './findingKey.ts'

/** A review that answers a finding until the day it is brought back. */
export type Answer = DecisionOf<'review'>
/** What was handed to a physician. */
export type Handover = DecisionOf<'handover'>
export type Given = Answer | Handover

const isGiven = (decision: Decision): decision is Given => decision.kind === 'review' || decision.kind === 'handover'

/** Who took back which review or handover, by its number. */
export function takenBackBy(decisions: readonly Decision[]): ReadonlyMap<number, DecisionOf<'answer-withdrawn'>> {
  return new Map(decisions.flatMap((decision) => (decision.kind === 'answer-withdrawn' ? [[decision.answerId, decision] as const] : [])))
}

/** Every review and handover, those that were taken back included; latest first. */
export function everGiven(decisions: readonly Decision[]): readonly Given[] {
  return decisions.filter(isGiven).toSorted((a, b) => b.id - a.id)
}

/** Reviews and handovers that nobody took back; latest first. */
export function givenAnswers(decisions: readonly Decision[]): readonly Given[] {
  const takenBack = takenBackBy(decisions)
  return everGiven(decisions).filter(({ id }) => !takenBack.has(id))
}

/**
 * The last thing anybody did about what a key is about, whatever its evidence: a review, a handover, or that one of them was taken back. A form carries its
 * number, so that whoever answers what another person answered meanwhile is told.
 */
export function lastAbout(key: string, decisions: readonly Decision[]): Given | DecisionOf<'answer-withdrawn'> | null {
  const own = everGiven(decisions).filter((given) => sameSubject(given.key, key))
  const ids = new Set(own.map(({ id }) => id))
  const takenBack = [...takenBackBy(decisions).values()].filter(({ answerId }) => ids.has(answerId))
  return [...own, ...takenBack].toSorted((a, b) => b.id - a.id)[0] ?? null
}
