import type { Interpreted, RawRow } from '../../intake/index.ts'
import {
  type CourseEvent,
  currentVersion,
  decideEventFiling,
  decideFiling,
  decidePatientFiling,
  eventIdentity,
  type IncomingResult,
  type LabResult,
  type Patient,
  resultIdentity,
} from '../../results/index.ts'
import type { Tx } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { ReadRow } from './readRow.ts'

/** What became of a row that could be read; `on` is the day it speaks of. `addedPatient`: its patient was made with it. */
export type Filed =
  | { readonly outcome: 'filed' | 'known' | 'corrected'; readonly patientId: string; readonly addedPatient?: true }
  | { readonly outcome: 'held'; readonly patientId: string; readonly reason: string; readonly sentence: string; readonly on: Day | null }

/** What became of any row. */
export type RowAnswer = Filed | { readonly outcome: 'refused'; readonly reason: string; readonly sentence: string }

/** Where a row stands, and when it is filed. */
export interface RowPlace {
  readonly fileId: number
  readonly line: RawRow['line']
  readonly now: string
}

/** Files a patient: new, completed or changed; the row as it was is kept. */
function filePatient(tx: Tx, patient: Patient, place: RowPlace): Filed {
  const known = tx.patient(patient.id)?.patient ?? null
  const { outcome } = decidePatientFiling(patient, known)
  if (outcome === 'filed') tx.insertPatient(patient, place)
  if (outcome === 'corrected') tx.updatePatient(patient, place, place.now)
  return { outcome, patientId: patient.id }
}

/** The number of the next version: one that was taken back keeps its own. */
export function nextVersion(versions: readonly { readonly version: number }[]): number {
  return Math.max(0, ...versions.map(({ version }) => version)) + 1
}

/** Files a course event, as a new version where it says something else of the same event. */
function fileEvent(tx: Tx, patientId: string, event: CourseEvent, place: RowPlace): Filed {
  const identity = eventIdentity(patientId, event)
  const versions = tx.eventVersionsOf(patientId).filter((stored) => stored.identity === identity)
  const counting = versions.filter(({ takenBack }) => !takenBack)
  const { outcome, version: decided } = decideEventFiling(event, counting)
  const version = nextVersion(versions)
  const repeated = outcome === 'known' ? counting.find((stored) => stored.version === decided) : undefined
  if (repeated !== undefined) tx.insertRepeats('course', { fileId: place.fileId, patientId }, [{ versionId: repeated.id, line: place.line }])
  if (outcome !== 'known') tx.insertEventVersion({ patientId, identity, version, event, fileId: place.fileId, line: place.line }, true)
  return { outcome, patientId }
}

/** What filing a result asks and tells of what is stored. */
export type ResultShelf = Pick<Tx, 'versionsOf' | 'insertResultVersion' | 'insertRepeats'>

/** Stores a version of a result and lets the version count, of it and the stored ones not taken back, that the laboratory's own order says counts. */
export function storeVersion(
  shelf: Pick<ResultShelf, 'insertResultVersion'>,
  incoming: IncomingResult,
  version: number,
  stored: readonly LabResult[],
  { fileId, line }: RowPlace,
  identity = resultIdentity(incoming),
): void {
  const { patientId, provenance, analyte, code, collected, status, value, accession, laboratory, method, referenceLow, referenceHigh, reportedAt } =
    incoming
  // Named one by one: copying whole objects takes longer, and a large file has a million.
  const result = { analyte, code, collected, status, value, accession, laboratory, method, referenceLow, referenceHigh, reportedAt, version }
  const isCurrent = stored.length === 0 || currentVersion([...stored, result])?.version === version
  shelf.insertResultVersion(
    { patientId, identity, result, provenance: { fileId, line, valueText: provenance.valueText, unitText: provenance.unitText } },
    isCurrent,
  )
}

/** Files a result, or says why a person has to decide. */
export function fileResult(shelf: ResultShelf, incoming: IncomingResult, place: RowPlace): Filed {
  const identity = resultIdentity(incoming)
  const versions = shelf.versionsOf(identity)
  const counting = versions.filter(({ takenBack }) => !takenBack).map(({ result }) => result)
  const filing = decideFiling(incoming, counting)
  const { patientId } = incoming
  if (filing.outcome === 'held') return { ...filing, patientId, on: incoming.collected.on }
  if (filing.outcome === 'known') {
    const repeated = counting.find(({ version }) => version === filing.version)
    if (repeated !== undefined) shelf.insertRepeats('results', { fileId: place.fileId, patientId }, [{ versionId: repeated.id, line: place.line }])
  } else storeVersion(shelf, incoming, nextVersion(versions.map(({ result }) => result)), counting, place, identity)
  return { outcome: filing.outcome, patientId }
}

/** Files what was read as `file` does, or answers why it could not be read. */
function fileRead<T>(read: Interpreted<T>, patientId: string, file: (value: T) => Filed): RowAnswer {
  if (read.outcome === 'take') return file(read.value)
  return read.outcome === 'held' ? { ...read, patientId } : read
}

/** Files what a row of results says, or answers why that is not possible. */
export function fileReadResult(shelf: ResultShelf, read: Interpreted<IncomingResult>, patientId: string, place: RowPlace): RowAnswer {
  return fileRead(read, patientId, (result) => fileResult(shelf, result, place))
}

/** Files what a row says, or answers why that is not possible. */
export function fileRow(tx: Tx, row: ReadRow, patientId: string, place: RowPlace): RowAnswer {
  if (row.kind === 'results') return fileReadResult(tx, row.read, patientId, place)
  if (row.kind === 'patients') return fileRead(row.read, patientId, (patient) => filePatient(tx, patient, place))
  return fileRead(row.read, patientId, (event) => fileEvent(tx, patientId, event, place))
}
