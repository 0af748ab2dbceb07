'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { compareRecords, confirmMerge, declineMerge, endMerge, type Outcome, proposeMerge } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const IDENTIFIER = z.string().trim().min(1, 'is missing').max(500, 'is too long')
const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
const TYPED = z.string().max(5000, 'is too long')

/** The page behind the form is drawn again, also where the answer was refused as out of date. What was typed stays in the form. */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found') refresh()
  return outcome
}

/** Two records side by side. Changes nothing but the log. */
export async function comparePatientRecords(form: FormData) {
  return guardedAction('patient.merge', z.strictObject({ fromId: IDENTIFIER, intoId: IDENTIFIER }), form, compareRecords)
}

/** Proposes that two records are those of one person, with the reason a person typed. */
export async function proposePatientMerge(form: FormData) {
  const schema = z.strictObject({ fromId: IDENTIFIER, intoId: IDENTIFIER, reason: TYPED })
  return seenEitherWay(guardedAction('patient.merge', schema, form, proposeMerge))
}

/** Confirms what somebody else proposed. */
export async function confirmPatientMerge(form: FormData) {
  return seenEitherWay(guardedAction('patient.merge', z.strictObject({ mergeId: NUMBER }), form, confirmMerge))
}

/** Declines what somebody proposed, or takes one's own proposal back. */
export async function declinePatientMerge(form: FormData) {
  return seenEitherWay(guardedAction('patient.merge', z.strictObject({ mergeId: NUMBER, reason: TYPED }), form, declineMerge))
}

/** Ends a merge in force, with the reason a person typed. */
export async function endPatientMerge(form: FormData) {
  return seenEitherWay(guardedAction('patient.merge', z.strictObject({ mergeId: NUMBER, reason: TYPED }), form, endMerge))
}
