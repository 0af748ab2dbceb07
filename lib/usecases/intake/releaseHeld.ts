import type { RawRow } from '../../intake/index.ts'
import type { HeldRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileRow, type RowAnswer } from './fileRow.ts'
import { readRow } from './readRow.ts'

/** A held row as a row again. */
export function rawRowOf(held: HeldRow): RawRow {
  return { kind: held.kind, line: held.line, text: held.row, fields: held.fields, refusal: null }
}

/** Reads a held row afresh and files it where nothing is wrong with it any more; otherwise answers what is. */
export function fileHeld(tx: Tx, held: HeldRow, call: Call): RowAnswer {
  const patient = held.patientId === null ? null : (tx.patient(held.patientId)?.patient ?? null)
  const row = readRow(rawRowOf(held), patient, call.today)
  return fileRow(tx, row, held.patientId ?? '', { fileId: held.fileId, line: held.line, now: call.now })
}

/**
 * Corrections of these patients that came before their original, and whose original is here now: files them and takes them out of the queue. What
 * they waited for has happened, so there is nothing left for a person to decide. Returns them.
 */
export function releaseCorrections(tx: Tx, patientIds: Iterable<string>, call: Call): HeldRow[] {
  const released: HeldRow[] = []
  for (const patientId of patientIds) {
    for (const held of tx.heldOf(patientId)) {
      if (held.reason !== 'correction-before-original') continue
      const filed = fileHeld(tx, held, call)
      if (filed.outcome === 'held' || filed.outcome === 'refused') continue
      tx.resolveHeld({ heldId: held.id, decision: 'file', reason: 'Its original has arrived.', by: call.actor.name, at: call.now })
      released.push(held)
    }
  }
  return released
}
