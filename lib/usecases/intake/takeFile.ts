import { createHash } from 'node:crypto'
import { type ByteSource, bytesInMemory, type OpenTable, openTable, tooLarge } from '../../intake/index.ts'
import { FILE_CHUNK_BYTES, type Reader, type Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { FileReport } from '../views.ts'
import { afterFiling } from './afterFiling.ts'
import { fileMeant } from './fileMeant.ts'
import type { RowAnswer } from './fileRow.ts'
import { fileSource } from './fileSource.ts'
import type { IntakeOptions, ReceivedFile } from './incoming.ts'
import { addAnswer, nothingTaken } from './partTaken.ts'
import { keepPieces, type Pieces, piecesIn } from './pieces.ts'
import { fileAsPlanned, stillHolds } from './planned/fileAsPlanned.ts'
import { type PlannedFiling, type PlanningReader, planFilings } from './planned/planFiling.ts'
import { readRow, rememberingPatients, type Understood, understand, understandAll } from './readRow.ts'

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

/** Some rows of a file, and what filing them will do as far as it can be planned, by the first row of each patient. */
export interface ReadAhead {
  readonly read: readonly Understood[]
  readonly plans: ReadonlyMap<Understood, PlannedFiling>
}

/** Understands some rows in the order given, and plans what filing them will do: before anything is locked, or in a transaction that is taken back. */
export function readAhead(
  { table }: ReadableFile,
  places: Iterable<number>,
  source: string | null,
  call: Call,
  reader: PlanningReader & Pick<Reader, 'patientsOf' | 'sourceKnowledge'> = call.store.reader,
): ReadAhead {
  const raws = Array.from(places, table.rowAt)
  const read = understandAll(raws, reader.sourceKnowledge(source), reader, call.today)
  return { read, plans: planFilings(read, reader, call) }
}

/** Files what a row says; reads it again where the patient is not the one it was read against any more. */
function settle(tx: Tx, find: Tx['patient'], { raw, meant, patientId, patient, ...read }: Understood, fileId: number, call: Call): RowAnswer {
  const { kind } = raw
  // Where a row may add its patient, the one before may have: nobody is remembered as unknown.
  const stored = kind === 'patients' || meant.addsPatients ? tx.patient(patientId) : find(patientId)
  const isAsRead = kind !== 'patients' && stored?.version === patient?.version
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

/** The plans that hold from a row on, one beside the other; nobody twice, for the second was planned without the first. */
function holdingFrom(at: number, { read, plans }: ReadAhead, holds: (plan: PlannedFiling) => boolean): readonly PlannedFiling[] {
  const found: PlannedFiling[] = []
  const seen = new Set<string>()
  for (let next = at, row = read[next]; row !== undefined; row = read[next]) {
    const plan = plans.get(row)
    if (plan === undefined || seen.has(plan.patientId) || !holds(plan)) break
    found.push(plan)
    seen.add(plan.patientId)
    next += plan.rows.length
  }
  return found
}

/**
 * Takes some rows of a file in, with the standing of everybody they touch, and answers what became of these rows alone. Runs inside the transaction
 * that keeps all of it; the first part keeps the file. `before` is the report of the parts before. `pieces` of the bytes are kept with them: all of
 * them with the first part, unless said. What was planned is followed where it still holds.
 */
export function takePart(
  tx: Tx,
  opened: ReadableFile,
  ahead: ReadAhead,
  before: FileReport,
  call: Call,
  pieces: Pieces = { from: 0, to: before.fileId === null ? piecesIn(opened) : 0 },
): FileReport {
  const { read, plans } = ahead
  const fileId = before.fileId ?? keptFile(tx, opened, before)
  keepPieces(tx, opened, pieces)
  const part = nothingTaken()
  const lastBefore = tx.lastResultId()
  const find = rememberingPatients(tx.patient)
  const knowledge = tx.sourceKnowledge(before.source)
  const stored = tx.patientsOf([...plans.values()].map(({ patientId }) => patientId))
  const holds = (plan: PlannedFiling): boolean =>
    !part.touched.has(plan.patientId) && stillHolds(plan, stored.get(plan.patientId) ?? null, knowledge.version)
  for (let at = 0, row = read[0]; row !== undefined; row = read[at]) {
    const holding = holdingFrom(at, ahead, holds)
    if (holding.length === 0) {
      // What is known of the source may have changed since the row was read ahead.
      const understood = row.knownAs === knowledge.version ? row : understand(row.raw, knowledge, find, call.today)
      addAnswer(part, row, settle(tx, find, understood, fileId, call), null, call)
      at += 1
      continue
    }
    const standings = fileAsPlanned(tx, holding, fileId)
    for (const { patientId, rows } of holding) {
      for (const { understood, answer } of rows) addAnswer(part, understood, answer, standings.get(patientId) ?? null, call)
      at += rows.length
    }
  }
  tx.insertHeld(part.held.map((row) => ({ fileId, ...row })))
  tx.insertRefused(fileId, part.refused)
  const released = afterFiling(tx, part.touched.keys(), lastBefore, call, undefined, part.touched).length
  const { counts, patientsAdded, problems } = part
  const taken = { ...before, fileId, rows: read.length, ...counts, released, patientsAdded, problems }
  tx.setFileCounts(fileId, together(before, taken))
  return taken
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
