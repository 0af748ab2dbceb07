/** Bytes to rows, and rows to values or to a reason why not. Guesses nothing, skips nothing; files nothing itself. */
export { type AnalyteUnit, analyteUnit } from './analyteUnit.ts'
export { type ByteSource, bytesInMemory } from './byteSource.ts'
export { correctsRow } from './correctsRow.ts'
export { MOST_BYTES, type RefusedFile, tooLarge } from './fileBytes.ts'
export { type Answer, acknowledgement, type NotAccepted, wantsAcknowledgement } from './hl7/acknowledgement.ts'
export { type FrameFault, type FrameReader, framed, frameReader, MOST_MESSAGE_BYTES } from './hl7/frames.ts'
export { isSameMessage } from './hl7/isSameMessage.ts'
export { type MessageKey, type NetworkMessage, readNetworkMessage } from './hl7/networkMessage.ts'
export { interpretCourseEvent } from './interpretCourseEvent.ts'
export { interpretPatient } from './interpretPatient.ts'
export { interpretResult } from './interpretResult.ts'
export { analyteOfCode, loincCodes, whyNeverMapped } from './loinc.ts'
export { openTable } from './openTable.ts'
export { type ReadSteps, readSteps } from './readSteps.ts'
export { readTable } from './readTable.ts'
export {
  FILE_REASONS,
  type FileReason,
  HELD_REASONS,
  type HeldReason,
  type HeldRow,
  type Interpreted,
  REFUSED_REASONS,
  type RefusedReason,
  type RefusedRow,
} from './reason.ts'
export { field, patientIdOf, type RawRow, type RowFields } from './row.ts'
export { asDecided } from './source/asDecided.ts'
export { asSourceMeans, type MeantRow } from './source/asSourceMeans.ts'
export { NOTHING_KNOWN, type SourceKnowledge, type SourceMapping, type SourceProfile } from './source/knowledge.ts'
export { type ProfileExample, profileExamples } from './source/profileExamples.ts'
export { type ProfileDifference, type ProfileSaying, profileDifferences, profileSayings } from './source/profileWords.ts'
export { type ProfileProblem, type ReadProfile, readProfile, SAYS_NOTHING } from './source/readProfile.ts'
export type { OpenTable, ReadTable } from './table.ts'
export type { TableKind } from './tableKind.ts'
export { type ValueRange, valueRange } from './valueRange.ts'
export { withoutKnown } from './withoutKnown.ts'
