import { createHash } from 'node:crypto'
import { type Answer, bytesInMemory, isSameMessage, type MessageKey, type NetworkMessage, type RefusedFile } from '../../intake/index.ts'
import type { AcceptedMessage, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import type { IntakeOptions } from '../intake/incoming.ts'
import { eventOf } from '../intake/keepFile.ts'
import { refuseWhole } from '../intake/refuseWhole.ts'
import { emptyReport, type OpenedFile, type ReadableFile, readAhead, takePart } from '../intake/takeFile.ts'
import type { FileReport } from '../views.ts'

/** Takes back a transaction that found another message under the same control id. */
class ControlIdUsed extends Error {
  readonly fileId: number
  constructor(fileId: number) {
    super(`The control id belongs to file ${fileId}.`)
    this.fileId = fileId
  }
}

const isReadable = (opened: OpenedFile): opened is ReadableFile => opened.table.ok

function counted({ rows, filed, known, corrected, held, refused }: FileReport): string {
  return `${rows} rows: ${filed} filed, ${known} known, ${corrected} corrected, ${held} held, ${refused} refused`
}

async function refused(opened: OpenedFile, table: RefusedFile, call: Call, options: IntakeOptions): Promise<Answer> {
  await refuseWhole({ ...opened, table }, call, options)
  return { code: 'AR', says: table.sentence, reason: table.reason }
}

function isRepetition(tx: Tx, earlier: AcceptedMessage, { sha256, source }: ReadableFile): boolean {
  if (earlier.sha256 === sha256) return true
  const bytes = tx.fileBytes(earlier.fileId)
  return bytes !== null && isSameMessage(bytes, source.read(0, source.length))
}

/** All of a message in one transaction: its bytes, its rows, the standings, the log row, and its control id. What was accepted earlier is not filed again. */
function filed(opened: ReadableFile, key: MessageKey, call: Call, options: IntakeOptions): Promise<Answer> {
  const { sha256 } = opened
  const { source } = options
  const before = emptyReport(opened, call, options)
  const ahead = readAhead(opened, Array(opened.table.count).keys(), source, call)
  return call.store.record(call, (tx) => {
    const earlier = tx.acceptedMessage(key)
    if (earlier !== null) {
      if (!isRepetition(tx, earlier, opened)) throw new ControlIdUsed(earlier.fileId)
      const { fileId } = earlier
      const says = `Accepted earlier as file ${fileId}; nothing was filed again.`
      return { value: { code: 'AA', says, reason: null }, events: [{ action: 'message-repeated', fileId, sha256, source }] }
    }
    const report = takePart(tx, opened, ahead, before, call)
    if (report.fileId === null) throw new Error('A message that was taken in has a file.')
    tx.insertAcceptedMessage({ key, sha256, fileId: report.fileId, acceptedAt: call.now })
    return { value: { code: 'AA', says: counted(report), reason: null }, events: [eventOf(report, 1, 1)] }
  })
}

/**
 * Keeps a message, or its bytes with the reason why it is refused, and answers what its sender is told. Resolves after the commit. Rejects where nothing
 * could be kept.
 */
export async function keepMessage(message: NetworkMessage, bytes: Uint8Array, source: string | null, call: Call): Promise<Answer> {
  const { name, table, key } = message
  const options = { source, dryRun: false }
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const opened: OpenedFile = { file: { name }, sha256, source: bytesInMemory(bytes), table, close: () => undefined }
  if (!table.ok) return refused(opened, table, call, options)
  if (!isReadable(opened) || key === null) throw new Error(`${name} was read and has no key.`)
  try {
    return await filed(opened, key, call, options)
  } catch (error) {
    if (!(error instanceof ControlIdUsed)) throw error
    const sentence = `The control id was used before, by a message with other content (file ${error.fileId}); send it with an id of its own.`
    return refused(opened, { ok: false, reason: 'hl7-control-id-used', sentence }, call, options)
  }
}
