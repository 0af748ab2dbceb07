'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { compareHeld, confirmPatient, decideHeld, declinePatient, type Outcome, proposePatient, revokeMapping } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number of the queue')
  .transform(Number)
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
const TYPED = z.string().max(5000, 'is too long')
const SHORT = z.string().trim().max(200, 'is too long')
const TICKED = z
  .literal('on')
  .optional()
  .transform((ticked) => ticked === 'on')
const EXCEPT = z
  .string()
  .regex(/^(\d{1,15}(,\d{1,15})*)?$/, 'is no list of rows')
  .transform((text) => (text === '' ? [] : text.split(',').map(Number)))

const MEANINGS = ['file', 'refuse', 'code', 'unit'] as const
const DECISION = z.strictObject({
  heldId: NUMBER,
  act: z.enum(MEANINGS),
  meaning: SHORT,
  scope: z.enum(['one', 'alike']),
  except: EXCEPT,
  remember: TICKED,
  reason: TYPED,
})
const CHOICE = z.strictObject({
  heldId: NUMBER,
  patientId: z.string().trim().min(1, 'is missing').max(500, 'is too long'),
  scope: z.enum(['one', 'alike']),
  remember: TICKED,
  reason: TYPED,
})

/** The page behind the form is drawn again, also where it was out of date; what was typed stays in the form. */
async function seenEitherWay<T>(answer: Promise<Outcome<T>>): Promise<Outcome<T>> {
  const outcome = await answer
  if (outcome.ok || outcome.kind === 'invalid' || outcome.kind === 'not-found') refresh()
  return outcome
}

/** Files or refuses a held row, or says what its code or unit means; for it alone or for all alike. */
export async function decideHeldRows(form: FormData) {
  const decide = guardedAction('held.resolve', DECISION, form, (call, { act, meaning, scope, ...wish }) => {
    const said = act === 'code' ? ({ kind: act, code: meaning } as const) : act === 'unit' ? ({ kind: act, unit: meaning } as const) : { kind: act }
    return decideHeld(call, { ...wish, act: said, alike: scope === 'alike' })
  })
  return seenEitherWay(decide)
}

/** Shows what identifies a patient beside a held row; what else the form holds is not needed for it. */
export async function compareHeldRow(form: FormData) {
  const { heldId, patientId } = CHOICE.shape
  const asked = new FormData()
  for (const name of ['heldId', 'patientId']) asked.set(name, String(form.get(name) ?? ''))
  return guardedAction('held.identify', z.strictObject({ heldId, patientId }), asked, compareHeld)
}

/** Proposes whose a held row is. */
export async function proposeHeldPatient(form: FormData) {
  const propose = guardedAction('held.identify', CHOICE, form, (call, { scope, ...wish }) =>
    proposePatient(call, { ...wish, alike: scope === 'alike' }),
  )
  return seenEitherWay(propose)
}

/** Confirms, as a second person, whose a held row is. The page stays as it is, so that what became of the rows can be read on it. */
export async function confirmHeldPatient(form: FormData) {
  return guardedAction('held.identify', z.strictObject({ heldId: NUMBER }), form, confirmPatient)
}

/** Declines whose a held row was proposed to be. */
export async function declineHeldPatient(form: FormData) {
  return seenEitherWay(guardedAction('held.identify', z.strictObject({ heldId: NUMBER, reason: TYPED }), form, declinePatient))
}

/** Revokes what a text of a source was decided to mean. */
export async function revokeSourceMapping(form: FormData) {
  return seenEitherWay(guardedAction('mapping.revoke', z.strictObject({ mappingId: NUMBER, reason: TYPED }), form, revokeMapping))
}
