'use server'

import { refresh } from 'next/cache'
import { z } from 'zod'
import { acknowledgeEmergency, endEmergency, openEmergency } from '../../lib/usecases/index.ts'
import { guardedAction } from './guard.ts'

const NUMBER = z
  .string()
  .regex(/^[1-9]\d{0,14}$/, 'is not a number')
  .transform(Number)
// How long it may be and what it may hold is the use case's to say, in a sentence of its own.
const TYPED = z.string().max(5000, 'is too long')

/** Opens a closed record to a physician for 60 minutes. The page behind the form is drawn again, and is open then. */
export async function openClosedRecord(form: FormData) {
  const schema = z.strictObject({ patientId: z.string().trim().min(1, 'is missing').max(500, 'is too long'), reason: TYPED })
  const outcome = await guardedAction('emergency.open', schema, form, openEmergency)
  if (outcome.ok) refresh()
  return outcome
}

/** Ends an emergency view of one's own. The page is not drawn again by it: the browser leaves it. */
export async function endEmergencyView(form: FormData) {
  return guardedAction('emergency.open', z.strictObject({ emergencyId: NUMBER }), form, endEmergency)
}

/** Acknowledges an emergency view of somebody else. */
export async function acknowledgeEmergencyView(form: FormData) {
  const schema = z.strictObject({ emergencyId: NUMBER, note: TYPED })
  const outcome = await guardedAction('emergency.acknowledge', schema, form, acknowledgeEmergency)
  if (outcome.ok || outcome.kind === 'invalid') refresh()
  return outcome
}
