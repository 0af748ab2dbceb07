import { createHash } from 'node:crypto'
import { field, type RawRow, readTable, type TableKind } from '../../intake/index.ts'
import { isCorrection, RESULT_STATUSES } from '../../results/index.ts'
import type { Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import type { FileReport, RowProblem } from '../views.ts'
import { fileRow, type RowAnswer } from './fileRow.ts'
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

/** Originals before their corrections, so that the order of rows within a file decides nothing. */
function originalsFirst(kind: TableKind, rows: readonly RawRow[]): RawRow[] {
  if (kind !== 'results') return [...rows]
  const corrects = (raw: RawRow) => RESULT_STATUSES.some((status) => status === field(raw, 'status') && isCorrection(status))
  return [...rows.filter((raw) => !corrects(raw)), ...rows.filter(corrects)]
}

/** Rows between two words of progress. */
const PROGRESS_EVERY = 5_000

export type ReadableFile = OpenedFile & { readonly table: { readonly ok: true } }

/**
 * Understands every row before anything is locked, in the order of filing. Of patients nothing is read ahead: one row of theirs decides how the next
 * is read.
 */
export function readAhead({ file, table }: ReadableFile, call: Call, { onProgress }: IntakeOptions): readonly Understood[] {
  const { kind, rows } = table
  const find = kind === 'patients' ? () => null : rememberingPatients(call.store.reader.patient)
  return originalsFirst(kind, rows).map((raw, index) => {
    if ((index + 1) % PROGRESS_EVERY === 0) onProgress?.({ step: `${file.name}: rows read`, done: index + 1, of: rows.length })
    return understand(kind, raw, find, call.today)
  })
}

/** Files what a row says; reads it again where the patient is not the one it was read against any more. */
function settle(tx: Tx, kind: TableKind, find: Tx['patient'], { raw, patientId, ...read }: Understood, fileId: number, call: Call): RowAnswer {
  const stored = kind === 'patients' ? tx.patient(patientId) : find(patientId)
  const isAsRead = kind !== 'patients' && (stored?.version ?? null) === read.patientVersion
  const row = isAsRead ? read.row : readRow(kind, raw, stored?.patient ?? null, call.today)
  return fileRow(tx, row, patientId, { fileId, line: raw.line, now: call.now })
}

/** Takes one file in: every row, then the standing of everybody it touched. Runs inside the transaction that keeps all of it. */
export function takeFile(tx: Tx, opened: ReadableFile, read: readonly Understood[], call: Call, options: IntakeOptions): FileReport {
  const { file, sha256, table } = opened
  const { source, onProgress, dryRun } = options
  const { kind } = table
  const origin = { name: file.name, source, receivedAt: call.now, receivedBy: call.actor.name }
  const fileId = tx.insertFile({ ...origin, kind, bytes: file.bytes, refusedWhole: null, counts: null })
  const counts = { filed: 0, known: 0, corrected: 0, held: 0, refused: 0 }
  const problems: RowProblem[] = []
  const touched = new Set<string>()
  const find = rememberingPatients(tx.patient)
  read.forEach((understood, index) => {
    const { raw } = understood
    const answer = settle(tx, kind, find, understood, fileId, call)
    counts[answer.outcome] += 1
    if (answer.outcome === 'refused') tx.insertRefused(fileId, { line: raw.line, reason: answer.reason, sentence: answer.sentence, row: raw.text })
    else if (answer.outcome === 'held') {
      const { patientId, reason, sentence, on } = answer
      const row = { line: raw.line, kind, patientId: patientId === '' ? null : patientId, reason, sentence, row: raw.text, fields: { ...raw.fields } }
      tx.insertHeld({ fileId, ...row, receivedAt: call.now, receivedOn: call.today, collectedOn: on })
    }
    if (answer.outcome === 'held' || answer.outcome === 'refused') {
      problems.push({ line: raw.line, outcome: answer.outcome, reason: answer.reason, sentence: answer.sentence, row: raw.text })
    }
    if (answer.outcome !== 'known' && answer.outcome !== 'refused') touched.add(answer.patientId)
    if ((index + 1) % PROGRESS_EVERY === 0) onProgress?.({ step: `${file.name}: rows filed`, done: index + 1, of: read.length })
  })
  const released = releaseCorrections(tx, touched, call).length
  renew(tx, touched, call, (done) => onProgress?.({ step: `${file.name}: patients evaluated`, done, of: touched.size }))
  const all = { rows: read.length, ...counts, released }
  tx.setFileCounts(fileId, all)
  const about = { fileName: file.name, sha256, bytes: file.bytes.byteLength, kind, source, receivedAt: call.now, receivedBy: call.actor.name }
  return { fileId: dryRun ? null : fileId, ...about, dryRun, refusedWhole: null, ...all, problems: problems.toSorted((a, b) => a.line - b.line) }
}

function renew(tx: Tx, touched: ReadonlySet<string>, call: Call, onDone: (done: number) => void): void {
  let done = 0
  for (const patientId of touched) {
    done += 1
    if (done % 500 === 0) onDone(done)
    // A held row may name somebody nobody knows: there is no history to evaluate.
    if (tx.patient(patientId) === null) continue
    tx.bumpRevision(patientId)
    keepStanding(tx, patientId, call.today)
  }
}
