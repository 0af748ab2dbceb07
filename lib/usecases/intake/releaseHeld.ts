import type { RawRow } from '../../intake/index.ts'
import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { type Filed, fileEvent, filePatient, fileResult } from './fileRow.ts'
import { readRow } from './readRow.ts'

/** A held row as a row again. */
export function rawRowOf(held: HeldRow): RawRow {
  return { line: held.line, text: held.row, fields: held.fields, refusal: null }
}

/** Reads a held row afresh and files it where nothing is wrong with it any more; otherwise answers what is. */
export function fileHeld(
  tx: Tx,
  held: HeldRow,
  call: Call,
): Filed | { readonly outcome: 'refused'; readonly reason: string; readonly sentence: string } {
  const patient = held.patientId === null ? null : (tx.patient(held.patientId)?.patient ?? null)
  const row = readRow(held.kind, rawRowOf(held), patient, call.today)
  const place = { fileId: held.fileId, line: held.line, now: call.now }
  if (row.read.outcome === 'refused') return row.read
  if (row.read.outcome === 'held') return { ...row.read, patientId: held.patientId ?? '' }
  if (row.kind === 'patients') return filePatient(tx, row.read.value, place)
  if (row.kind === 'course') return fileEvent(tx, held.patientId ?? '', row.read.value, place)
  return fileResult(tx, row.read.value, place)
}

/**
 * Corrections of these patients that came before their original, and whose original is here now: files them and takes them out of the queue. What
 * they waited for has happened, so there is nothing left for a person to decide. Returns how many.
 */
export function releaseCorrections(tx: Tx, patientIds: Iterable<string>, call: Call): number {
  let released = 0
  for (const patientId of patientIds) {
    for (const held of tx.heldOf(patientId)) {
      if (held.reason !== 'correction-before-original') continue
      const filed = fileHeld(tx, held, call)
      if (filed.outcome === 'held' || filed.outcome === 'refused') continue
      tx.resolveHeld({ heldId: held.id, decision: 'file', reason: 'Its original has arrived.', by: call.actor.name, at: call.now })
      released += 1
    }
  }
  return released
}
