import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { staleToday } from './staleToday.ts'

/** How far the answers of today are: of so many patients, how many are still to be worked out before a list of them can be shown. */
export interface Renewal {
  readonly waiting: number
  readonly of: number
}

/** Two numbers of the whole clinic, for whoever waits for a page meanwhile. Works nothing out, and tells of nobody. */
export async function readRenewal(call: Call): Promise<Outcome<Renewal>> {
  const refused = await refusedUnlessMay(call, 'plan.read', 'answers of today')
  if (refused !== null) return refused
  return { ok: true, value: { waiting: staleToday(call).stale.length, of: call.store.reader.patientIds().length } }
}
