import { day, daysBetween } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { HeldRowView } from '../views.ts'
import { rememberingReader } from './rememberingReader.ts'
import { sentenceFor } from './sentenceFor.ts'
import { understood } from './understood.ts'

/** The queue of rows a person has to decide on, longest waiting first. */
export async function heldRows(call: Call): Promise<Outcome<readonly HeldRowView[]>> {
  const refused = await refusedUnlessMay(call, 'held.read', 'held rows')
  if (refused !== null) return refused
  const reader = rememberingReader(call.store.reader)
  const rows = call.store.reader.heldQueue().map((held) => {
    const { id, fileId, fileName, source, line, kind, patientId, reason, fields, receivedAt, receivedOn } = held
    return {
      heldId: id,
      receivedAt,
      fileId,
      fileName,
      source,
      line,
      kind,
      patientId,
      reason,
      sentence: sentenceFor(call, held.sentence),
      fields,
      understood: understood(reader, held),
      waitingDays: Math.max(0, daysBetween(day(receivedOn), call.today)),
    }
  })
  return { ok: true, value: rows }
}
