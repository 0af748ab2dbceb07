import { createHash } from 'node:crypto'
import { type ByteSource, bytesInMemory, type OpenTable, openTable, tooLarge } from '../../intake/index.ts'
import { FILE_CHUNK_BYTES, type StandingRow, type Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { FileReport, RowProblem } from '../views.ts'
import { afterFiling } from './afterFiling.ts'
import { fileMeant } from './fileMeant.ts'
import type { RowAnswer } from './fileRow.ts'
import { fileSource } from './fileSource.ts'
import type { IntakeOptions, ReceivedFile } from './incoming.ts'
import { keepPieces, type Pieces, piecesIn } from './pieces.ts'
import { fileAsPlanned, stillHolds } from './planned/fileAsPlanned.ts'
import type { PlannedFiling } from './planned/planFiling.ts'
import { readRow, rememberingPatients, type Understood, understand } from './readRow.ts'

/** A file as far as it can be read without the database. */
export interface OpenedFile {
  readonly file: Pick<ReceivedFile, 'name'>
  readonly sha256: string
  readonly source: ByteSource
  readonly table: OpenTable
  readonly close: () => void
}

/** Opens a file and reads it once to its end. It lies closed until it is read again; whoever reads it again closes it. */
export function openFile(file: ReceivedFile): OpenedFile {
  const { name } = file
  if ('bytes' in file) {
    const source = bytesInMemory(file.bytes)
    const sha256 = createHash('sha256').update(file.bytes).digest('hex')
    return { file, sha256, source, table: openTable(source, name), close: () => undefined }
  }
  const { sha256, byteCount, path } = file
  const { close, ...source } = fileSource(path)
  try {
    return { file, sha256, source, table: byteCount === null ? tooLarge(null, name) : openTable(source, name), close }
  } finally {
    close()
  }
}

export type ReadableFile = OpenedFile & { readonly table: { readonly ok: true } }

/**
 * Understands some rows before anything is locked, in the order given. Of patients nothing is read ahead: one row of theirs decides how the next
 * is read.
 */
export function readAhead(
  { table }: ReadableFile,
  places: Iterable<number>,
  source: string | null,
  call: Call,
  known: Pick<Tx, 'patient' | 'sourceKnowledge'> = call.store.reader,
): Understood[] {
  const find = rememberingPatients(known.patient)
  const knowledge = known.sourceKnowledge(source)
  return Array.from(places, (place) => {
    const raw = table.rowAt(place)
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
export function emptyReport({ file, sha256, source: { length }, table }: ReadableFile, call: Call, { source, dryRun }: IntakeOptions): FileReport {
  const origin = { source, receivedAt: call.now, receivedBy: call.actor.name, dryRun, refusedWhole: null, problems: [] }
  const counts = { rowsInFile: table.count, rows: 0, filed: 0, known: 0, corrected: 0, held: 0, refused: 0, released: 0, patientsAdded: 0 }
  return { fileId: null, fileName: file.name, sha256, bytes: length, kind: table.kind, ...origin, ...counts }
}

function keptFile(tx: Tx, { file, sha256, source: bytes, table }: ReadableFile, { source, receivedAt, receivedBy, rowsInFile }: FileReport): number {
  const byteCount = bytes.length
  return tx.insertFile({
    name: file.name,
    kind: table.kind,
    source,
    receivedAt,
    receivedBy,
    rowsInFile,
    bytes: byteCount > FILE_CHUNK_BYTES ? { sha256, byteCount } : bytes.read(0, byteCount),
    refusedWhole: null,
    counts: null,
  })
}

/**
 * Takes some rows of a file in, with the standing of everybody they touch, and answers what became of these rows alone. Runs inside the transaction
 * that keeps all of it; the first part keeps the file. `before` is the report of the parts before. `pieces` of the bytes are kept with them: all of
 * them with the first part, unless said. `plans` are what filing was found to do before anything was locked; each is followed where it still holds.
 */
export function takePart(
  tx: Tx,
  opened: ReadableFile,
  read: readonly Understood[],
  before: FileReport,
  call: Call,
  pieces: Pieces = { from: 0, to: before.fileId === null ? piecesIn(opened) : 0 },
  plans: ReadonlyMap<Understood, PlannedFiling> = new Map(),
): FileReport {
  const fileId = before.fileId ?? keptFile(tx, opened, before)
  keepPieces(tx, opened, pieces)
  const counts = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0 }
  const problems: RowProblem[] = []
  // With the standing, where all that is filed of the patient was planned.
  const touched = new Map<string, StandingRow | null>()
  let patientsAdded = 0
  const lastBefore = tx.lastResultId()
  const find = rememberingPatients(tx.patient)
  const knowledge = tx.sourceKnowledge(before.source)
  for (let at = 0, ahead = read[0]; ahead !== undefined; ahead = read[++at]) {
    const plan = plans.get(ahead)
    if (plan !== undefined && !touched.has(plan.patientId) && stillHolds(tx, plan, knowledge.version)) {
      const standing = fileAsPlanned(tx, plan, fileId)
      for (const outcome of ['filed', 'corrected', 'known'] as const) counts[outcome] += plan.outcomes[outcome]
      if (plan.outcomes.filed + plan.outcomes.corrected > 0) touched.set(plan.patientId, standing)
      at += plan.rows - 1
      continue
    }
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
    if (answer.outcome !== 'known' && answer.outcome !== 'refused') touched.set(answer.patientId, null)
  }
  const released = afterFiling(tx, touched.keys(), lastBefore, call, undefined, touched).length
  const part = { ...before, fileId, rows: read.length, ...counts, released, patientsAdded, problems }
  tx.setFileCounts(fileId, together(before, part))
  return part
}

/** So many problems a report itself holds; all of them are in the database (`problemRows`). */
export const PROBLEMS_TOLD = 1_000

/** The report of the parts so far; its first problems in the order of taking. */
export function together(before: FileReport, part: FileReport): FileReport {
  const sum = (count: 'rows' | 'filed' | 'known' | 'corrected' | 'held' | 'refused' | 'released' | 'patientsAdded') => before[count] + part[count]
  const counts = { filed: sum('filed'), known: sum('known'), corrected: sum('corrected'), held: sum('held'), refused: sum('refused') }
  return {
    ...part,
    rows: sum('rows'),
    ...counts,
    released: sum('released'),
    patientsAdded: sum('patientsAdded'),
    problems: [...before.problems, ...part.problems].slice(0, PROBLEMS_TOLD),
  }
}
