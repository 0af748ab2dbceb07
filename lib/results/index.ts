/** Results as reported, the patients they belong to, and what is recorded of their course. Knows no rule. */
export { ANALYTES, type Analyte } from './analyte.ts'
export { analyteWords } from './analyteWords.ts'
export { ANSWER_KINDS, type AnswerKind, type ReviewKind } from './answerKind.ts'
export {
  CARES,
  type Care,
  type ChangeContent,
  type CourseChange,
  type CourseChangeKind,
  type CourseChangeOf,
  type CourseWord,
  changesInForce,
  type LineBegun,
  matterOf,
  type PhaseBegun,
  type SpokenChange,
  toldOf,
} from './courseChange.ts'
export { currentVersion, isCorrection } from './currentVersion.ts'
export type { AttributedValue, Decision, DecisionKind, DecisionOf, FindingDecision, Made, ResultDecision } from './decision.ts'
export { countingResults, exclusionsOf } from './excluded.ts'
export { decideEventFiling, type EventFiling, type EventVersion, eventIdentity } from './fileCourseEvents.ts'
export { decidePatientFiling, type PatientFiling } from './filePatients.ts'
export { decideFiling, type Filing } from './fileResults.ts'
export { type Correction, type FindingChange, isTakenBack } from './findingChange.ts'
export { type History, historyAsOf } from './history.ts'
export type { Band, HeavyChain, Immunofixation, LightChain } from './immunofixation.ts'
export type { IncomingResult } from './incomingResult.ts'
export { type ArrivedEvent, joinEvents } from './joinEvents.ts'
export { type JoinedRecords, joinRecords, type PatientRecord } from './joinRecords.ts'
export { type ArrivedResult, type JoinedResults, joinedCorrections } from './joinResults.ts'
export {
  type Comparator,
  collectedOn,
  isWithdrawn,
  type LabResult,
  type Measured,
  type Provenance,
  type Quantity,
  RESULT_STATUSES,
  type ReferenceLimit,
  type ResultStatus,
} from './labResult.ts'
export {
  type CourseEvent,
  type CourseEventOf,
  type HeldNotice,
  INTENTS,
  type Intent,
  MODALITIES,
  type Modality,
  PATIENT_STATUSES,
  type Patient,
  type PatientStatus,
  PHASES,
  type Phase,
  type Sex,
} from './patient.ts'
export { readImmunofixation } from './readImmunofixation.ts'
export { resultContent, resultIdentity } from './resultContent.ts'
