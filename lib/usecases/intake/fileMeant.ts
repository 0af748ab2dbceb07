import { type MeantRow, patientIdOf } from '../../intake/index.ts'
import type { RowOfFile, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { fileRow, type RowAnswer } from './fileRow.ts'
import { keepMappings } from './keepMappings.ts'
import { patientToAdd } from './patientToAdd.ts'
import { type ReadRow, readRow } from './readRow.ts'

/**
 * Files a row as its source means it, with what it says as `row`. A patient nobody knows is made first where the source is trusted to add patients, with
 * this row as where they come from. Keeps which mappings brought it in.
 */
export function fileMeant(tx: Tx, meant: MeantRow, row: ReadRow, { fileId, line }: RowOfFile, call: Call): RowAnswer {
  const place = { fileId, line, now: call.now }
  const added = patientToAdd(meant, row, call.today)
  if (added !== null) tx.insertPatient(added, place)
  const answer = fileRow(tx, added === null ? row : readRow(meant.raw, added, call.today), patientIdOf(meant.raw), place)
  keepMappings(tx, meant, answer, place)
  return added !== null && answer.outcome === 'filed' ? { ...answer, addedPatient: true } : answer
}
