import { createHash } from 'node:crypto'
import { follows, readAuditEvent, type TrailHead } from '../../trail/index.ts'
import { linesOf } from './exportFile.ts'

/** What a file of exported entries says of itself. */
export interface ExportCheck {
  readonly path: string
  readonly sha256: string
  readonly rows: number
  /** What its first entry follows, and its last entry; equal in number where there is none. */
  readonly before: TrailHead
  readonly head: TrailHead
  readonly databaseId: string
  /**
   * The first thing that does not fit: a line that is no entry or was changed, one that does not follow, one of another database, entries without
   * hashes. `sequence` is the number that should stand there.
   */
  readonly fault: null | {
    readonly kind: 'unreadable' | 'chain' | 'other-database' | 'not-whole' | 'empty'
    readonly line: number
    readonly sequence: number
  }
  /** The hashes of the entries asked for, by number. */
  readonly hashes: ReadonlyMap<number, string>
}

/** Recomputes the chain of an export from the file alone. Throws the error of the file system. `onRows` hears how far it is. */
export function checkExport(path: string, wanted: ReadonlySet<number> = new Set(), onRows: (done: number) => void = () => undefined): ExportCheck {
  const sha256 = createHash('sha256')
  const hashes = new Map<number, string>()
  let [rows, line, databaseId] = [0, 0, '']
  let [before, head]: [TrailHead, TrailHead] = [
    { sequence: 0, hash: '' },
    { sequence: 0, hash: '' },
  ]
  let fault: ExportCheck['fault'] = null
  for (const text of linesOf(path, (bytes) => sha256.update(bytes))) {
    line += 1
    // Read on for the digest of the whole file, whatever its entries are.
    if (fault !== null) continue
    const entry = readAuditEvent(text)
    const sequence = head.sequence + 1
    if (entry.kind !== 'entry') {
      fault = { kind: entry.kind, line, sequence }
      continue
    }
    const { row } = entry
    if (rows === 0) {
      databaseId = entry.databaseId
      before = { sequence: row.sequence - 1, hash: row.previousHash }
      head = before
    }
    if (entry.databaseId !== databaseId) fault = { kind: 'other-database', line, sequence }
    else if (!follows(head, row)) fault = { kind: 'chain', line, sequence: head.sequence + 1 }
    else {
      head = { sequence: row.sequence, hash: row.hash }
      rows += 1
      if (wanted.has(row.sequence)) hashes.set(row.sequence, row.hash)
      if (rows % 100_000 === 0) onRows(rows)
    }
  }
  if (fault === null && rows === 0) fault = { kind: 'empty', line: 1, sequence: 1 }
  return { path, sha256: sha256.digest('hex'), rows, before, head, databaseId, fault, hashes }
}
