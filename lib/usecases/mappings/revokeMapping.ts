import type { StoredMapping, Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { typedText } from '../decisions/typedText.ts'
import { partsInTurn } from '../held/partsInTurn.ts'
import { counted } from '../held/settledSays.ts'
import { settleRows } from '../held/settleRows.ts'
import { afterFiling } from '../intake/afterFiling.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type PlacedRow, rowsOfFiles } from './rowsOfFiles.ts'
import { type RepeatedRow, takeBack } from './takeBack.ts'

export interface RevokedView {
  readonly sentence: string
  readonly rows: number
  readonly patients: number
}

function takePartBack(tx: Tx, rows: readonly PlacedRow[], repeats: readonly RepeatedRow[], mapping: StoredMapping, call: Call) {
  const lastBefore = tx.lastResultId()
  const { versions, results, touched } = takeBack(tx, rows, repeats, mapping, call)
  const released = afterFiling(tx, touched, lastBefore, call, results).map(
    ({ id, patientId }) => ({ action: 'held-resolved', heldId: id, patientId, decision: 'file' }) as const,
  )
  const patients = [...new Set(rows.map(({ patientId }) => patientId))]
  const logged = { action: 'mapping-taken-back', mappingId: mapping.id, rows: rows.length, versions, patients } as const
  return { value: versions, events: [logged, ...released] }
}

/**
 * Revokes a mapping with a reason: later rows are no longer read by it, and every row that was filed with it is taken back, in parts. Its versions stay
 * stored and count no longer; the rows come back into the queue. Revoking again takes back what an interruption left.
 */
export async function revokeMapping(call: Call, { mappingId, reason }: { mappingId: number; reason: string }): Promise<Outcome<RevokedView>> {
  const refused = await refusedUnlessMay(call, 'mapping.revoke', `mapping ${mappingId}`)
  if (refused !== null) return refused
  const typed = typedText(reason, 'The reason')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  const { reader } = call.store
  const mapping = reader.mapping(mappingId)
  if (mapping === null) return { ok: false, kind: 'not-found', reason: `No mapping has the number ${mappingId}.` }
  if (mapping.revoked !== null && reader.mappingReach(mappingId).rows === 0) {
    return {
      ok: false,
      kind: 'invalid',
      reason: `Mapping ${mappingId} was revoked by ${mapping.revoked.by} already, and nothing filed with it counts.`,
    }
  }
  if (mapping.revoked === null) {
    await call.store.record(call, (tx) => {
      tx.revokeMapping({ mappingId, by: call.actor.name, at: call.now, reason: typed.text })
      return { value: null, events: [{ action: 'mapping-revoked', mappingId, kind: mapping.kind }] }
    })
  }
  // Read after the revocation: from then on no row is filed with the mapping.
  const reach = reader.mappingReach(mappingId)
  const waiting = reader.waitingWithText(mapping)
  const rows = rowsOfFiles(reader, reader.rowsNotTakenBack(mappingId))
  const repeats = rowsOfFiles(reader, reader.repeatsOfMapping(mappingId))
  for await (const some of partsInTurn(rows)) {
    await call.store.record(call, (tx) => takePartBack(tx, some, repeats, mapping, call))
  }
  // Rows that waited for something else were read by it too, and say now what they wait for without it.
  await settleRows(call, waiting, { kind: 'read-again', decided: null }, `Mapping ${mappingId} was revoked.`)
  const taken =
    reach.rows === 0
      ? 'No row was filed with it.'
      : `${counted(reach.rows, 'row')} of ${counted(reach.patients, 'patient')} came back: each waits in the queue, or was filed as it reads without it.`
  return { ok: true, value: { sentence: `Mapping ${mappingId} is revoked. ${taken}`, ...reach } }
}
