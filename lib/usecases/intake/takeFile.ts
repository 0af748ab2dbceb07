import { createHash } from 'node:crypto'
import { field, type RawRow, readTable } from '../../intake/index.ts'
import { isCorrection, RESULT_STATUSES } from '../../results/index.ts'
import type { Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { keepFindingChanges } from '../standing/keepFindingChanges.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import type { FileReport, RowProblem } from '../views.ts'
import { fileMeant } from './fileMeant.ts'
import type { RowAnswer } from './fileRow.ts'
import type { IncomingFile, IntakeOptions } from './incoming.ts'
import { readRow, rememberingPatients, type Understood, understand } from './readRow.ts'
import { releaseCorrections } from './releaseHeld.ts'

/** A file as far as it can be read without the database. */
export interface OpenedFile {
  readonly file: IncomingFile
  readonly sha256: string
  readonly table: ReturnType<typeof readTable>
}

export function openFile(file: IncomingFile): OpenedFile {
  return { file, sha256: createHash('sha256').update(file.bytes).digest('hex'), table: readTable(file.bytes, file.name) }
}

/** Originals before their corrections, so that the order of rows within a file decides nothing. Patients before results, as the reader gives them. */
function originalsFirst(rows: readonly RawRow[]): RawRow[] {
  const corrects = (raw: RawRow) =>
    raw.kind === 'results' && RESULT_STATUSES.some((status) => status === field(raw, 'status') && isCorrection(status))
  return [...rows.filter((raw) => !corrects(raw)), ...rows.filter(corrects)]
}

/** Rows between two words of progress. */
const PROGRESS_EVERY = 5_000

export type ReadableFile = OpenedFile & { readonly table: { readonly ok: true } }

/**
 * Understands every row before anything is locked, in the order of filing. Of patients nothing is read ahead: one row of theirs decides how the next
 * is read.
 */
export function readAhead({ file, table }: ReadableFile, call: Call, { source, onProgress }: IntakeOptions): readonly Understood[] {
  const { rows } = table
  const find = rememberingPatients(call.store.reader.patient)
  const knowledge = call.store.reader.sourceKnowledge(source)
  return originalsFirst(rows).map((raw, index) => {
    if ((index + 1) % PROGRESS_EVERY === 0) onProgress?.({ step: `${file.name}: rows read`, done: index + 1, of: rows.length })
    return understand(raw, knowledge, raw.kind === 'patients' ? () => null : find, call.today)
  })
}

/** Files what a row says; reads it again where the patient is not the one it was read against any more. */
function settle(tx: Tx, find: Tx['patient'], { raw, meant, patientId, ...read }: Understood, fileId: number, call: Call): RowAnswer {
  const { kind } = raw
  // Where a row may add its patient, the one before may have: nobody is remembered as unknown.
  const stored = kind === 'patients' || meant.addsPatients ? tx.patient(patientId) : find(patientId)
  const isAsRead = kind !== 'patients' && (stored?.version ?? null) === read.patientVersion
  const row = isAsRead ? read.row : readRow(meant.raw, stored?.patient ?? null, call.today)
  return fileMeant(tx, meant, row, { fileId, line: raw.line }, call)
}

/** A report of a file of which no row is taken in yet. */
export function emptyReport({ file, sha256, table }: ReadableFile, call: Call, { source, dryRun }: IntakeOptions): FileReport {
  const origin = { source, receivedAt: call.now, receivedBy: call.actor.name, dryRun, refusedWhole: null, problems: [] }
  const counts = { rowsInFile: table.rows.length, rows: 0, filed: 0, known: 0, corrected: 0, held: 0, refused: 0, released: 0, patientsAdded: 0 }
  return { fileId: null, fileName: file.name, sha256, bytes: file.bytes.byteLength, kind: table.kind, ...origin, ...counts }
}

function keptFile(tx: Tx, { file, table }: ReadableFile, { source, receivedAt, receivedBy, rowsInFile }: FileReport): number {
  return tx.insertFile({
    name: file.name,
    kind: table.kind,
    source,
    receivedAt,
    receivedBy,
    rowsInFile,
    bytes: file.bytes,
    refusedWhole: null,
    counts: null,
  })
}

/**
 * Takes some rows of a file in, with the standing of everybody they touch, and answers what became of these rows alone. Runs inside the transaction
 * that keeps all of it; the first part keeps the file. `before` is the report of the parts before.
 */
export function takePart(tx: Tx, opened: ReadableFile, read: readonly Understood[], before: FileReport, call: Call): FileReport {
  const fileId = before.fileId ?? keptFile(tx, opened, before)
  const counts = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0 }
  const problems: RowProblem[] = []
  const touched = new Set<string>()
  let patientsAdded = 0
  const lastBefore = tx.lastResultId()
  const find = rememberingPatients(tx.patient)
  const knowledge = tx.sourceKnowledge(before.source)
  for (const ahead of read) {
    const { raw } = ahead
    // What is known of the source may have changed since the row was read ahead.
    const understood = ahead.knownAs === knowledge.version ? ahead : understand(raw, knowledge, find, call.today)
    const answer = settle(tx, find, understood, fileId, call)
    counts[answer.outcome] += 1
    if (answer.outcome === 'filed' && answer.addedPatient) patientsAdded += 1
    if (answer.outcome === 'refused') tx.insertRefused(fileId, { line: raw.line, reason: answer.reason, sentence: answer.sentence, row: raw.text })
    else if (answer.outcome === 'held') {
      const { patientId, reason, sentence, on } = answer
      const { kind, line } = raw
      const row = { line, kind, patientId: patientId === '' ? null : patientId, reason, sentence, row: raw.text, fields: { ...raw.fields } }
      tx.insertHeld({ fileId, ...row, receivedAt: call.now, receivedOn: call.today, collectedOn: on })
    }
    if (answer.outcome === 'held' || answer.outcome === 'refused') {
      problems.push({ line: raw.line, outcome: answer.outcome, reason: answer.reason, sentence: answer.sentence, row: raw.text })
    }
    if (answer.outcome !== 'known' && answer.outcome !== 'refused') touched.add(answer.patientId)
  }
  const released = releaseCorrections(tx, touched, call).length
  keepFindingChanges(tx, lastBefore, call)
  renew(tx, touched, call)
  const part = { ...before, fileId, rows: read.length, ...counts, released, patientsAdded, problems }
  tx.setFileCounts(fileId, together(before, part))
  return part
}

/** The report of the parts so far; its problems in the order of taking. */
export function together(before: FileReport, part: FileReport): FileReport {
  const sum = (count: 'rows' | 'filed' | 'known' | 'corrected' | 'held' | 'refused' | 'released' | 'patientsAdded') => before[count] + part[count]
  const counts = { filed: sum('filed'), known: sum('known'), corrected: sum('corrected'), held: sum('held'), refused: sum('refused') }
  return {
    ...part,
    rows: sum('rows'),
    ...counts,
    released: sum('released'),
    patientsAdded: sum('patientsAdded'),
    problems: [...before.problems, ...part.problems],
  }
}

function renew(tx: Tx, touched: ReadonlySet<string>, call: Call): void {
  for (const patientId of touched) {
    // A held row may name somebody nobody knows: there is no history to evaluate.
    if (tx.patient(patientId) === null) continue
    tx.bumpRevision(patientId)
    keepStanding(tx, patientId, call.today)
  }
}
