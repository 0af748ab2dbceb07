import { FILE_CHUNK_BYTES, type Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { FileReport } from '../views.ts'
import type { IntakeOptions } from './incoming.ts'
import { keepPieces, PIECES_A_PART, piecesIn, piecesOfPart } from './pieces.ts'
import type { OpenedFile } from './takeFile.ts'

function wholeRefusal({ file, sha256, source: { length }, table }: OpenedFile, call: Call, options: IntakeOptions): FileReport {
  if (table.ok) throw new Error(`${file.name} was read and is not refused.`)
  return {
    fileId: null,
    fileName: file.name,
    sha256,
    bytes: length,
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

function keepRefused(tx: Tx, opened: OpenedFile, report: FileReport): number {
  const { fileName: name, sha256, bytes: byteCount, source, receivedAt, receivedBy, refusedWhole } = report
  const isLarge = byteCount > FILE_CHUNK_BYTES
  const bytes = isLarge ? { sha256, byteCount } : opened.source.read(0, byteCount)
  return tx.insertFile({ name, kind: null, source, receivedAt, receivedBy, rowsInFile: 0, refusedWhole, bytes, counts: null })
}

/**
 * Keeps a file that is refused whole, with its reason. One over the limit is not kept: it could fill the disk, and its name and reason stand in the log.
 */
export async function refuseWhole(opened: OpenedFile, call: Call, options: IntakeOptions): Promise<FileReport> {
  const report = wholeRefusal(opened, call, options)
  const { refusedWhole } = report
  if (options.dryRun || refusedWhole === null) return report
  const { name } = opened.file
  const { reason } = refusedWhole
  const isKept = reason !== 'file-too-large'
  const pieces = isKept ? piecesIn(opened) : 0
  const parts = Math.max(Math.ceil(pieces / PIECES_A_PART), 1)
  let fileId: number | null = null
  for (let part = 0; part < parts; part++) {
    fileId = await call.store.record(call, (tx) => {
      const value: number | null = isKept ? (fileId ?? keepRefused(tx, opened, report)) : null
      keepPieces(tx, opened, piecesOfPart(pieces, part, parts))
      return {
        value,
        events: [{ action: 'intake-refused', fileName: name, sha256: opened.sha256, reason, ...(parts > 1 && { part: part + 1, parts }) }],
      }
    })
  }
  return { ...report, fileId }
}
