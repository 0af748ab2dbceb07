import type { MeantRow } from '../../intake/index.ts'
import type { MappingUse, RowOfFile, Tx } from '../../store/index.ts'
import type { RowAnswer } from './fileRow.ts'

/** Which mappings brought a row into the database; none of one that is not in it. */
export function mappingUses({ mappings }: MeantRow, answer: RowAnswer, { fileId, line }: RowOfFile): readonly MappingUse[] {
  if (answer.outcome !== 'filed' && answer.outcome !== 'corrected') return []
  const { patientId } = answer
  return mappings.map((mappingId) => ({ mappingId, fileId, line, patientId }))
}

/** Keeps which mappings brought a row into the database, so that revoking one finds it. */
export function keepMappings(tx: Tx, meant: MeantRow, answer: RowAnswer, place: RowOfFile): void {
  tx.insertMappingUses(mappingUses(meant, answer, place))
}
