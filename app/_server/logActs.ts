'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { LOG_QUESTIONS } from '../../lib/trail/index.ts'
import { askLog, reviewLog } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const DAY = z.string().max(20, 'is too long')
const SHORT = z.string().max(500, 'is too long')
const BEFORE = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not the number of an entry')
  .transform(Number)
  .optional()

/** Asks the log. Whom the question is about is sent in the form and never stands in an address. */
export async function askTheLog(form: FormData) {
  const schema = z.strictObject({
    question: z.enum(LOG_QUESTIONS),
    patient: SHORT,
    person: SHORT,
    only: SHORT,
    from: DAY,
    to: DAY,
    before: BEFORE,
  })
  return guardedAction('log.read-all', schema, form, (call, { before = null, ...asked }) => askLog(call, { ...asked, before }))
}

const TICKED = z.literal('on').optional()

/** Records that a period of the log was reviewed. */
export async function recordLogReview(form: FormData) {
  const ticks = Object.fromEntries(LOG_QUESTIONS.map((question) => [question, TICKED]))
  const schema = z.strictObject({ from: DAY, to: DAY, note: z.string().max(5000, 'is too long'), ...ticks })
  const outcome = await guardedAction('log.review', schema, form, (call, { from, to, note, ...ticked }) =>
    reviewLog(call, { from, to, note, lookedAt: LOG_QUESTIONS.filter((question) => (ticked as Record<string, unknown>)[question] === 'on') }),
  )
  if (outcome.ok) refresh()
  return outcome
}
