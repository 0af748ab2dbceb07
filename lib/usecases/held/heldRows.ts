import { day, daysBetween } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { HeldRowView } from '../views.ts'

/** The queue of rows a person has to decide on, longest waiting first. */
export async function heldRows(call: Call): Promise<Outcome<readonly HeldRowView[]>> {
  const refused = await refusedUnlessMay(call, 'held.read', 'held rows')
  if (refused !== null) return refused
  const rows = call.store.reader
    .heldQueue()
    .map(({ id, fileId, fileName, line, kind, patientId, reason, sentence, fields, receivedAt, receivedOn }) => ({
      heldId: id,
      receivedAt,
      fileId,
      fileName,
      line,
      kind,
      patientId,
      reason,
      sentence,
      fields,
      waitingDays: Math.max(0, daysBetween(day(receivedOn), call.today)),
    }))
  return { ok: true, value: rows }
}
