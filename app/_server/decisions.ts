'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { parseDay } from '../../lib/time/index.ts'
import { excludeResult, type Outcome, recordAttribution, recordReview, restoreResult, withdrawAttribution } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const WORD = z.string().min(1, 'is missing').max(500, 'is too long')
const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
const TYPED = z.string().max(5000, 'is too long')
/** A day as a date field sends it; null where it was left empty. */
const DAY = z.string().transform((text, context) => {
  const day = parseDay(text)
  if (day === null && text !== '') context.addIssue({ code: 'custom', message: 'is not a day' })
  return day
})
// A key names every stored result behind its finding.
const FINDING = { patientId: WORD, rule: WORD, key: z.string().min(1, 'is missing').max(20_000, 'is too long') }
const RESULT = z.strictObject({ patientId: WORD, resultId: NUMBER, reason: TYPED })

/**
 * The page behind the form is drawn again with the new standing; also where the answer was refused as out of date or out of bounds, so that the person
 * sees what has come in meanwhile. What was typed stays in the form.
 */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found') refresh()
  return outcome
}

/** Answers a finding with its evidence, with a note and a day on which it comes back at the latest. */
export async function answerFinding(form: FormData) {
  return seenEitherWay(guardedAction('review.write', z.strictObject({ ...FINDING, note: TYPED, bringBackOn: DAY }), form, recordReview))
}

/** Records another cause of an organ-damage finding. */
export async function recordCause(form: FormData) {
  return seenEitherWay(guardedAction('attribution.write', z.strictObject({ ...FINDING, cause: TYPED }), form, recordAttribution))
}

/** Takes a recorded cause back, with the reason a person typed. */
export async function withdrawCause(form: FormData) {
  const schema = z.strictObject({ patientId: WORD, attributionId: NUMBER, reason: TYPED })
  return seenEitherWay(guardedAction('attribution.write', schema, form, withdrawAttribution))
}

/** Takes a spurious value out of everything that is found, with the reason a person typed. */
export async function excludeValue(form: FormData) {
  return seenEitherWay(guardedAction('exclusion.write', RESULT, form, excludeResult))
}

/** Lets an excluded value count again, with the reason a person typed. */
export async function restoreValue(form: FormData) {
  return seenEitherWay(guardedAction('exclusion.write', RESULT, form, restoreResult))
}
