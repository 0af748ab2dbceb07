import type { MeantRow } from '../../intake/index.ts'
import type { RowOfFile, Tx } from '../../store/index.ts'
import type { RowAnswer } from './fileRow.ts'

/** Keeps which mappings brought a row into the database, so that revoking one finds it. */
export function keepMappings(tx: Tx, { mappings }: MeantRow, answer: RowAnswer, { fileId, line }: RowOfFile): void {
  if (answer.outcome !== 'filed' && answer.outcome !== 'corrected') return
  for (const mapping of mappings) tx.insertMappingUse(mapping, { fileId, line, patientId: answer.patientId })
}
