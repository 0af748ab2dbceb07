import { setTimeout as pause } from 'node:timers/promises'
import type { Tx } from '../../store/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { FileReport } from '../views.ts'
import type { IncomingFile, IntakeOptions } from './incoming.ts'
import { inParts } from './parts.ts'
import type { Understood } from './readRow.ts'
import { emptyReport, type OpenedFile, openFile, type ReadableFile, readAhead, takePart, together } from './takeFile.ts'

// Patients before their courses, courses before results, whatever order the files are named in. A file with rows of several kinds tells of patients too.
const ORDER = ['patients', null, 'course', 'results']

function place(opened: OpenedFile): number {
  return opened.table.ok ? ORDER.indexOf(opened.table.kind) : ORDER.length
}

/** Carries a dry run's reports out of the transaction it takes back. */
class NothingKept extends Error {
  readonly reports: readonly FileReport[]
  constructor(reports: readonly FileReport[]) {
    super('A dry run keeps nothing.')
    this.reports = reports
  }
}

function wholeRefusal({ file, sha256, table }: OpenedFile, call: Call, options: IntakeOptions): FileReport {
  if (table.ok) throw new Error(`${file.name} was read and is not refused.`)
  return {
    fileId: null,
    fileName: file.name,
    sha256,
    bytes: file.bytes.byteLength,
    kind: null,
    source: options.source,
    receivedAt: call.now,
    receivedBy: call.actor.name,
    dryRun: options.dryRun,
    refusedWhole: { reason: table.reason, sentence: table.sentence },
    rowsInFile: 0,
    rows: 0,
    filed: 0,
    known: 0,
    corrected: 0,
    held: 0,
    refused: 0,
    released: 0,
    patientsAdded: 0,
    problems: [],
  }
}

/** A file over the limit is not kept: it could fill the disk, and its hash in the log names it. */
const MOST_BYTES_KEPT = 512 * 1024 * 1024

/** Keeps the bytes of a file that is refused whole, with its reason; on a dry run nothing. */
export async function refuseWhole(opened: OpenedFile, call: Call, options: IntakeOptions): Promise<FileReport> {
  const report = wholeRefusal(opened, call, options)
  const { refusedWhole } = report
  if (options.dryRun || refusedWhole === null) return report
  const { name, bytes } = opened.file
  const file = {
    name,
    kind: null,
    source: options.source,
    receivedAt: call.now,
    receivedBy: call.actor.name,
    rowsInFile: 0,
    refusedWhole,
    bytes,
    counts: null,
  }
  const fileId = await call.store.record(call, (tx) => ({
    value: bytes.byteLength > MOST_BYTES_KEPT ? null : tx.insertFile(file),
    events: [{ action: 'intake-refused', fileName: name, sha256: opened.sha256, reason: refusedWhole.reason }],
  }))
  return { ...report, fileId }
}

/** Between two parts, so that whoever waits to write gets in. */
const PAUSE_MS = 30

/** What the log says of a part that was taken in. */
export function eventOf(report: FileReport, part: number, parts: number): TrailEvent {
  const { fileId, sha256, fileName, rows, filed, known, corrected, held, refused, released, patientsAdded } = report
  const counts = { rows, filed, known, corrected, held, refused, released, ...(patientsAdded === 0 ? {} : { patientsAdded }) }
  return { action: 'intake', fileId: fileId ?? 0, sha256, fileName, part, parts, ...counts }
}

/** Part by part, each one transaction with its log row. An interruption leaves whole parts; sent again, what they filed is known and the rest follows. */
async function keepFile(opened: ReadableFile, call: Call, options: IntakeOptions): Promise<FileReport> {
  const parts = inParts(readAhead(opened, call, options))
  let report = emptyReport(opened, call, options)
  for (const [index, rows] of parts.entries()) {
    const before = report
    const part = await call.store.record(call, (tx) => {
      const value = takePart(tx, opened, rows, before, call)
      return { value, events: [eventOf(value, index + 1, parts.length)] }
    })
    report = together(before, part)
    options.onProgress?.({ step: `${report.fileName}: rows filed`, done: report.rows, of: report.rowsInFile })
    if (index + 1 < parts.length) await pause(PAUSE_MS)
  }
  return report
}

function tryFile(tx: Tx, opened: ReadableFile, read: readonly Understood[], call: Call, options: IntakeOptions): FileReport {
  const before = emptyReport(opened, call, options)
  return { ...together(before, takePart(tx, opened, read, before, call)), fileId: null }
}

/** Works everything out in one transaction and takes it back, so that a dry run reports exactly what the real run would. */
async function tryFiles(readable: readonly ReadableFile[], call: Call, options: IntakeOptions): Promise<readonly FileReport[]> {
  const read = readable.map((opened) => readAhead(opened, call, options))
  try {
    return await call.store.record(call, (tx) => {
      throw new NothingKept(readable.map((opened, index) => tryFile(tx, opened, read[index] ?? [], call, options)))
    })
  } catch (error) {
    if (error instanceof NothingKept) return error.reports
    throw error
  }
}

/** Why nothing is taken in: the actor may not (logged), or there is no file. Null where it may begin. */
export async function refusedIntake(call: Call, files: readonly IncomingFile[]): Promise<Extract<Outcome<never>, { ok: false }> | null> {
  const refused = await refusedUnlessMay(call, 'intake.write', 'intake')
  if (refused !== null) return refused
  return files.length === 0 ? { ok: false, kind: 'invalid', reason: 'No file was named.' } : null
}

/**
 * Takes files in: patients, then courses, then results. Every row is filed, known, corrected, held or refused, in the same
 * transaction as the log row that counts it. Answers in the order of taking, files refused whole last.
 */
export async function acceptFiles(call: Call, files: readonly IncomingFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  const refused = await refusedIntake(call, files)
  if (refused !== null) return refused
  const opened = files.map(openFile).toSorted((a, b) => place(a) - place(b))
  const readable = opened.filter((file): file is ReadableFile => file.table.ok)
  const reports: FileReport[] = options.dryRun ? [...(await tryFiles(readable, call, options))] : []
  if (!options.dryRun) for (const file of readable) reports.push(await keepFile(file, call, options))
  for (const file of opened.filter((other) => !other.table.ok)) reports.push(await refuseWhole(file, call, options))
  return { ok: true, value: reports.map((report) => ({ ...report, problems: report.problems.toSorted((a, b) => a.line - b.line) })) }
}
