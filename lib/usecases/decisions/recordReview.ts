import type { AnswerKind } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type AnswerWish, recordAnswers, type ShownFinding } from './recordAnswers.ts'

export interface ReviewWish extends ShownFinding, Pick<AnswerWish, 'patientId' | 'note' | 'bringBackOn'> {
  readonly did?: AnswerKind | undefined
}

/** Answers one current finding with its evidence (`recordAnswers`). Answers the day it comes back at the latest, null for what was handed to a physician. */
export async function recordReview(call: Call, wish: ReviewWish): Promise<Outcome<{ readonly bringBackOn: Day | null }>> {
  const { patientId, rule, key, lastDone, did = null, note, bringBackOn } = wish
  const outcome = await recordAnswers(call, { patientId, findings: [{ rule, key, lastDone }], did, note, bringBackOn })
  return outcome.ok ? { ok: true, value: { bringBackOn: outcome.value.bringBackOn } } : outcome
}
