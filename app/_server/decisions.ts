'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import {
  excludeResult,
  type Outcome,
  recordAttribution,
  recordReview,
  restoreResult,
  takeAnswersBack,
  withdrawAttribution,
} from '../../lib/usecases/index.ts'
import { ANSWER, DECISION_IDS, FINDING, LAST_DONE, TYPED, WORD } from './answerForm.ts'
import { STAMP } from './courseForm.ts'
import { drawnAgain } from './drawnAgain.ts'
import { guardedAction } from './guard.ts'
import { inTwoSteps } from './twoSteps.ts'

const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
const RESULT = z.strictObject({ patientId: WORD, resultId: NUMBER, reason: TYPED, shown: STAMP })

/**
 * The page behind the form is drawn again with the new standing; also where the answer was refused as out of date or out of bounds, so that the person
 * sees what has come in meanwhile. What was typed stays in the form.
 */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found') refresh()
  return outcome
}

/** Answers a finding with its evidence: what was done, a note, and a day on which it comes back at the latest. */
export async function answerFinding(form: FormData) {
  const schema = z.strictObject({ ...FINDING, ...ANSWER, lastDone: LAST_DONE.optional() })
  return seenEitherWay(guardedAction('review.write', schema, form, recordReview))
}

/** Takes the last answer to a finding back. */
export async function takeAnswerBack(form: FormData) {
  const schema = z.strictObject({ patientId: WORD, decisionIds: DECISION_IDS })
  return seenEitherWay(guardedAction('review.write', schema, form, takeAnswersBack))
}

/** Records another cause of an organ-damage finding, after its consequence was shown. */
export async function recordCause(form: FormData) {
  return drawnAgain(
    guardedAction('attribution.write', z.strictObject({ ...FINDING, cause: TYPED, shown: STAMP }), form, (call, sent) =>
      inTwoSteps(call, { ...sent, would: 'attribute' }, sent.shown, (shown) => recordAttribution(call, { ...sent, shown })),
    ),
  )
}

/** Takes a recorded cause back, with the reason a person typed. */
export async function withdrawCause(form: FormData) {
  const schema = z.strictObject({ patientId: WORD, attributionId: NUMBER, reason: TYPED, shown: STAMP })
  return drawnAgain(
    guardedAction('attribution.write', schema, form, (call, sent) =>
      inTwoSteps(call, { ...sent, would: 'withdraw-cause' }, sent.shown, (shown) => withdrawAttribution(call, { ...sent, shown })),
    ),
  )
}

/** Takes a spurious value out of everything that is found, with the reason a person typed. */
export async function excludeValue(form: FormData) {
  return drawnAgain(
    guardedAction('exclusion.write', RESULT, form, (call, sent) =>
      inTwoSteps(call, { ...sent, would: 'exclude' }, sent.shown, (shown) => excludeResult(call, { ...sent, shown })),
    ),
  )
}

/** Lets an excluded value count again, with the reason a person typed. */
export async function restoreValue(form: FormData) {
  return drawnAgain(
    guardedAction('exclusion.write', RESULT, form, (call, sent) =>
      inTwoSteps(call, { ...sent, would: 'restore' }, sent.shown, (shown) => restoreResult(call, { ...sent, shown })),
    ),
  )
}
