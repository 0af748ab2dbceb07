import type { TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** What the log says of a listener beside the messages it takes. */
export type ListeningEvent = Extract<TrailEvent, { readonly action: 'listener-started' | 'listener-stopped' | 'connection-closed' }>

/** Writes to the log that a listener began or ended, or that it closed a connection without an acknowledgement. */
export async function recordListening(call: Call, event: ListeningEvent): Promise<Outcome<null>> {
  const refused = await refusedUnlessMay(call, 'intake.write', 'HL7 listener')
  if (refused !== null) return refused
  return { ok: true, value: await call.store.record(call, () => ({ value: null, events: [event] })) }
}
