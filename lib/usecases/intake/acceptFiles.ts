import type { Reader, Tx } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { reportFor } from '../held/sentenceFor.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { FileReport, RowProblem } from '../views.ts'
import type { IntakeOptions, ReceivedFile } from './incoming.ts'
import { keepFile, partsOf } from './keepFile.ts'
import { refuseWhole } from './refuseWhole.ts'
import { emptyReport, type OpenedFile, openFile, PROBLEMS_TOLD, type ReadableFile, readAhead, takePart, together } from './takeFile.ts'

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

/** The held and refused rows of a report, as far as the database has them. */
function problemsIn(reader: Pick<Reader, 'problemRows'>, { fileId }: FileReport): Iterable<RowProblem> {
  return fileId === null ? [] : reader.problemRows(fileId)
}

/** The report with the first of its held and refused rows, in the order of the file. */
function withFirstProblems(reader: Pick<Reader, 'problemRows'>, report: FileReport): FileReport {
  const problems: RowProblem[] = []
  for (const row of problemsIn(reader, report)) {
    if (problems.length === PROBLEMS_TOLD) break
    problems.push(row)
  }
  return { ...report, problems }
}

function tryFile(tx: Tx, opened: ReadableFile, parts: readonly Uint32Array[], call: Call, options: IntakeOptions): FileReport {
  let report = emptyReport(opened, call, options)
  for (const places of parts) {
    report = together(report, takePart(tx, opened, readAhead(opened, places, options.source, call, tx), report, call, { from: 0, to: 0 }))
  }
  opened.close()
  return withFirstProblems(tx, report)
}

/** Works everything out in one transaction and takes it back, so that a dry run reports exactly what the real run would. */
async function tryFiles(
  readable: readonly ReadableFile[],
  refused: readonly FileReport[],
  call: Call,
  options: IntakeOptions,
): Promise<readonly FileReport[]> {
  const parts = readable.map((opened) => {
    const places = partsOf(opened, options)
    opened.close()
    return places
  })
  try {
    return await call.store.record<readonly FileReport[]>(call, (tx) => {
      const tried = readable.map((opened, at) => tryFile(tx, opened, parts[at] ?? [], call, options))
      const numbers = new Map<FileReport, FileReport>()
      const told = tried.map((report) => ({ ...report, fileId: null }))
      told.forEach((report, at) => {
        numbers.set(report, tried[at] ?? report)
      })
      const reports = [...told, ...refused]
      options.onReports?.(reports, (report) => problemsIn(tx, numbers.get(report) ?? report))
      throw new NothingKept(reports)
    })
  } catch (error) {
    if (error instanceof NothingKept) return error.reports
    throw error
  }
}

async function keepFiles(readable: readonly ReadableFile[], call: Call, options: IntakeOptions): Promise<FileReport[]> {
  const { reader } = call.store
  const reports: FileReport[] = []
  for (const file of readable) {
    reports.push(withFirstProblems(reader, await keepFile(file, call, options)))
    // A call may name thousands of files; no more of them are open than are being read.
    file.close()
  }
  return reports
}

/** Why nothing is taken in: the actor may not (logged), or there is no file. Null where it may begin. */
export async function refusedIntake(call: Call, files: readonly ReceivedFile[]): Promise<Extract<Outcome<never>, { ok: false }> | null> {
  const refused = await refusedUnlessMay(call, 'intake.write', 'intake')
  if (refused !== null) return refused
  return files.length === 0 ? { ok: false, kind: 'invalid', reason: 'No file was named.' } : null
}

async function acceptOpened(opened: readonly OpenedFile[], call: Call, options: IntakeOptions): Promise<readonly FileReport[]> {
  const readable = opened.filter((file): file is ReadableFile => file.table.ok)
  const kept = options.dryRun ? [] : await keepFiles(readable, call, options)
  const refused: FileReport[] = []
  for (const file of opened) if (!file.table.ok) refused.push(await refuseWhole(file, call, options))
  if (options.dryRun) return tryFiles(readable, refused, call, options)
  const reports = [...kept, ...refused]
  options.onReports?.(reports, (report) => problemsIn(call.store.reader, report))
  return reports
}

/**
 * Takes files in: patients, then courses, then results. Every row is filed, known, corrected, held or refused, in the same
 * transaction as the log row that counts it. Answers in the order of taking, files refused whole last. No file is ever in memory whole.
 */
export async function acceptFiles(call: Call, files: readonly ReceivedFile[], options: IntakeOptions): Promise<Outcome<readonly FileReport[]>> {
  const refused = await refusedIntake(call, files)
  if (refused !== null) return refused
  const opened: OpenedFile[] = []
  try {
    for (const file of files) opened.push(openFile(file))
    const inOrder = opened.toSorted((a, b) => place(a) - place(b))
    const reports = await acceptOpened(inOrder, call, options)
    return { ok: true, value: reports.map((report) => reportFor(call, report)) }
  } finally {
    for (const file of opened) file.close()
  }
}
