import type { StoredFile } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { reportFor } from '../held/sentenceFor.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { FileReport, RowProblem } from '../views.ts'

const RECENT = 50

function reportOf({ id, name, byteCount, ...file }: StoredFile, problems: readonly RowProblem[]): FileReport {
  return { ...file, fileId: id, fileName: name, bytes: byteCount, dryRun: false, problems }
}

/** The files that came in last, without their rows. */
export async function readReports(call: Call): Promise<Outcome<readonly FileReport[]>> {
  const refused = await refusedUnlessMay(call, 'intake.write', 'intake reports')
  return refused ?? { ok: true, value: call.store.reader.recentFiles(RECENT).map((file) => reportOf(file, [])) }
}

/** What became of one file, with every held and refused row. Their text may tell of a patient, so the log keeps who read it before it is told. */
export async function readReport(call: Call, fileId: number): Promise<Outcome<FileReport>> {
  const refused = await refusedUnlessMay(call, 'intake.write', `intake report ${fileId}`)
  if (refused !== null) return refused
  const { reader } = call.store
  const file = reader.file(fileId)
  if (file === null) return { ok: false, kind: 'not-found', reason: `No file has the number ${fileId}.` }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'report-read', fileId }] }))
  return { ok: true, value: reportFor(call, reportOf(file, [...reader.problemRows(fileId)])) }
}
