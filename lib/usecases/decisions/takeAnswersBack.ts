import { findingKey, type Given, givenAnswers, sameSubject, takenBackBy } from '../../review/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Call, Outcome } from '../call.ts'
import type { ListRow } from '../views.ts'
import { decideTogether, type One, refuse } from './decide.ts'
import { givenSays, takenBackSays } from './givenSays.ts'
import { rowNow } from './rowNow.ts'

export interface TakingBack {
  readonly patientId: string
  /** Taken back together, or none of them. */
  readonly decisionIds: readonly number[]
}

/** The answer a number names, where it is the last of its finding and stands; refuses with the reason where it is not. */
function lastGiven(id: number, { patientId, decisionIds }: TakingBack, { known, findings, handovers }: Assessment): Given {
  const { decisions } = known
  const given = decisions.find((decision) => decision.id === id)
  if (given?.kind !== 'review' && given?.kind !== 'handover') return refuse('not-found', `Patient ${patientId} has no answer with the number ${id}.`)
  const taken = takenBackBy(decisions).get(id)
  if (taken !== undefined) refuse('invalid', `This answer cannot be taken back: ${takenBackSays(taken)} already.`)
  const newer = givenAnswers(decisions).find((other) => other.id > id && !decisionIds.includes(other.id) && sameSubject(other.key, given.key))
  if (newer !== undefined) refuse('invalid', `This answer cannot be taken back: it was replaced. ${givenSays(newer)}.`)
  const isOfNow = findings.some((finding) => findingKey(finding) === given.key) || [...handovers.values()].some((handover) => handover.id === id)
  if (!isOfNow) refuse('invalid', 'This answer cannot be taken back: evidence came after it, so it answers nothing any more and stays on record.')
  return given
}

/**
 * Takes back the last answer to a finding, or those given together: each stays on record with a withdrawal of its own, and the finding stands as it did
 * before. Whoever may answer may take back, another person's answer too.
 */
export function takeAnswersBack(call: Call, wish: TakingBack): Promise<Outcome<{ readonly row: ListRow | null }>> {
  const { patientId, decisionIds } = wish
  const asked = { permission: 'review.write', patientId, typed: '', called: 'The reason', optional: true } as const
  return decideTogether(call, asked, (assessment, tx) => {
    if (decisionIds.length === 0 || new Set(decisionIds).size < decisionIds.length) refuse('invalid', 'Say which answers to take back, each once.')
    const decisions = decisionIds.map((answerId): One => {
      const before = lastGiven(answerId, wish, assessment)
      return {
        record: tx.recordOfDecision(answerId) ?? patientId,
        decision: { kind: 'answer-withdrawn', answerId },
        before,
        event: (logged) => ({ action: 'review-withdrawn', ...logged }),
      }
    })
    return { decisions, value: (_, after) => ({ row: rowNow(call, after, assessment.course.patient.id) }) }
  })
}
