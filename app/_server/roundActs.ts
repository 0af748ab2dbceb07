'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { assignPatient, endRound, type ListQuery, type Outcome, removeView, saveView, startRound } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const WHOLE = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
const WHOLE_OR_NONE = z
  .string()
  .regex(/^([1-9]\d{0,14})?$/, 'is not a number')
  .transform((text) => (text === '' ? null : Number(text)))
/** The view whose place it takes, with the version that was shown: `7:2`; empty for a new one. */
const PLACE = z
  .string()
  .regex(/^([1-9]\d{0,9}:[1-9]\d{0,9})?$/, 'is not a view')
  .transform((text) => {
    const [id, version] = text.split(':').map(Number)
    return id === undefined || version === undefined ? null : { id, version }
  })
const ASKED = z
  .string()
  .max(2000, 'is too long')
  .transform((text, context) => {
    try {
      return JSON.parse(text) as unknown
    } catch {
      context.addIssue({ code: 'custom', message: 'is not a question to the list' })
      return z.NEVER
    }
  })

/** What stands in the page is drawn again, also where the answer was refused: somebody changed it meanwhile. */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found') refresh()
  return outcome
}

/** Starts the round of the clinic. */
export async function startTheRound(form: FormData) {
  return seenEitherWay(guardedAction('round.write', z.strictObject({}), form, (call) => startRound(call)))
}

/** Ends the round that was shown. */
export async function endTheRound(form: FormData) {
  return seenEitherWay(guardedAction('round.write', z.strictObject({ roundId: WHOLE }), form, endRound))
}

/** Gives a patient to somebody, or to nobody. */
export async function givePatient(form: FormData) {
  const schema = z.strictObject({ patientId: z.string().min(1).max(500), to: WHOLE_OR_NONE, shown: WHOLE_OR_NONE })
  return seenEitherWay(guardedAction('patient.assign', schema, form, assignPatient))
}

/** Keeps what the list is asked under a name: as a new view, or in place of the version that was shown. */
export async function keepView(form: FormData) {
  const schema = z.strictObject({
    name: z.string().max(500, 'is too long'),
    shared: z.enum(['yes', 'no']),
    asks: ASKED,
    place: PLACE,
  })
  return seenEitherWay(
    guardedAction('view.write', schema, form, (call, { name, shared, asks, place }) =>
      saveView(call, { name, shared: shared === 'yes', query: asks as ListQuery, shown: place }),
    ),
  )
}

/** Removes the view that was shown. */
export async function removeKeptView(form: FormData) {
  const schema = z.strictObject({ viewId: WHOLE, version: WHOLE })
  return seenEitherWay(guardedAction('view.write', schema, form, (call, { viewId: id, version }) => removeView(call, { id, version })))
}
