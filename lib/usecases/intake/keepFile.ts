import { setTimeout as pause } from 'node:timers/promises'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call } from '../call.ts'
import type { FileReport } from '../views.ts'
import type { IntakeOptions } from './incoming.ts'
import { inParts } from './parts.ts'
import { PIECES_A_PART, piecesIn, piecesOfPart } from './pieces.ts'
import { emptyReport, type ReadAhead, type ReadableFile, readAhead, takePart, together } from './takeFile.ts'

/** Rows between two words of progress. */
const PROGRESS_EVERY = 5_000

/** The places of a file's rows, part by part, telling how far the reading is. */
export function partsOf({ file, table }: ReadableFile, { onProgress }: IntakeOptions): readonly Uint32Array[] {
  return inParts(table, (done) => {
    if (done % PROGRESS_EVERY === 0) onProgress?.({ step: `${file.name}: rows read`, done, of: table.count })
  })
}

/** Between two parts, so that whoever waits to write gets in: longer than they sleep between two tries (`untilFree`). */
const PAUSE_MS = 10

/** What the log says of a part that was taken in. */
export function eventOf(report: FileReport, part: number, parts: number): TrailEvent {
  const { fileId, sha256, fileName, rows, filed, known, corrected, held, refused, released, patientsAdded } = report
  const counts = { rows, filed, known, corrected, held, refused, released, ...(patientsAdded === 0 ? {} : { patientsAdded }) }
  return { action: 'intake', fileId: fileId ?? 0, sha256, fileName, part, parts, ...counts }
}

/**
 * Part by part, each one transaction with its log row. An interruption leaves whole parts; sent again, what they filed is known and the rest follows.
 * The next part is read, and what filing it will do is planned, while whoever waits to write may.
 */
export async function keepFile(opened: ReadableFile, call: Call, options: IntakeOptions): Promise<FileReport> {
  const places = partsOf(opened, options)
  const pieces = piecesIn(opened)
  const parts = Math.max(places.length, Math.ceil(pieces / PIECES_A_PART))
  let report = emptyReport(opened, call, options)
  const readPart = (part: number): ReadAhead => readAhead(opened, places[part] ?? [], options.source, call)
  let next = readPart(0)
  for (let part = 0; part < parts; part++) {
    const [before, ahead] = [report, next]
    const taken = await call.store.record(call, (tx) => {
      const value = takePart(tx, opened, ahead, before, call, piecesOfPart(pieces, part, parts))
      return { value, events: [eventOf(value, part + 1, parts)] }
    })
    report = together(before, taken)
    options.onProgress?.({ step: `${report.fileName}: rows filed`, done: report.rows, of: report.rowsInFile })
    if (part + 1 === parts) break
    const free = performance.now()
    next = readPart(part + 1)
    await pause(Math.max(PAUSE_MS - (performance.now() - free), 0))
  }
  return report
}
