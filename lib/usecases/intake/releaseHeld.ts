import { asDecided, type MeantRow, patientIdOf, type RawRow } from '../../intake/index.ts'
import type { HeldRow, Reader, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileMeant } from './fileMeant.ts'
import type { RowAnswer } from './fileRow.ts'
import { readRow } from './readRow.ts'

/** A held row as a row again. */
export function rawRowOf(held: HeldRow): RawRow {
  return { kind: held.kind, line: held.line, text: held.row, fields: held.fields, refusal: null }
}

/** A held row as its source means it by what is known now, and as a person decided of this row alone. */
export function meantHeld(reader: Pick<Reader, 'sourceKnowledge'>, held: HeldRow): MeantRow {
  return asDecided(rawRowOf(held), reader.sourceKnowledge(held.source), held.decided)
}

/** Reads a held row afresh and files it where nothing is wrong with it any more; otherwise answers what is. */
export function fileHeld(tx: Tx, held: HeldRow, call: Call): RowAnswer {
  const meant = meantHeld(tx, held)
  const patientId = patientIdOf(meant.raw)
  const row = readRow(meant.raw, patientId === '' ? null : (tx.patient(patientId)?.patient ?? null), call.today)
  return fileMeant(tx, meant, row, held, call)
}

/**
 * Corrections of these patients that came before their original, and whose original is here now: files them and takes them out of the queue. What
 * they waited for has happened, so there is nothing left for a person to decide. Returns them.
 */
export function releaseCorrections(tx: Tx, patientIds: readonly string[], call: Call): HeldRow[] {
  const released: HeldRow[] = []
  for (const held of tx.correctionsWaiting(patientIds)) {
    const filed = fileHeld(tx, held, call)
    if (filed.outcome === 'held' || filed.outcome === 'refused') continue
    tx.resolveHeld({ heldId: held.id, decision: 'file', reason: 'Its original has arrived.', by: call.actor.name, at: call.now })
    released.push(held)
  }
  return released
}
