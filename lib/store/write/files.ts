import { createHash } from 'node:crypto'
import type { Connection } from '../connection.ts'
import type { FileCounts, StoredFile } from '../read/files.ts'
import { insertSql } from './insert.ts'

/** A file to be kept with its bytes. Counts may follow with `setFileCounts`. */
export type NewFile = Pick<StoredFile, 'name' | 'kind' | 'source' | 'rowsInFile' | 'receivedAt' | 'receivedBy' | 'refusedWhole'> & {
  /** All of them; or, of a file larger than `FILE_CHUNK_BYTES`, what they are: then each piece follows with `insertFileChunk`. */
  readonly bytes: Uint8Array | BytesToCome
  readonly counts: FileCounts | null
}

/** Bytes that are not at hand all at once. */
export interface BytesToCome {
  readonly sha256: string
  readonly byteCount: number
}

/** A file of more bytes than this is kept in pieces of this length, the last one shorter. */
export const FILE_CHUNK_BYTES = 1024 * 1024

const FILE = insertSql('intake_file', [
  'name',
  'sha256',
  'byte_count',
  'kind',
  'source',
  'received_at',
  'received_by',
  'rows_in_file',
  'refused_whole_reason',
  'refused_whole_sentence',
])

const BYTES = 'INSERT INTO intake_file_bytes (sha256, bytes) VALUES (?, ?) ON CONFLICT DO NOTHING'
// A file that came in one piece, as they all did once, has no others.
const CHUNK = `INSERT INTO intake_file_chunk (sha256, number, bytes)
  SELECT sha256, ?, ? FROM intake_file_bytes WHERE sha256 = ? AND length(bytes) = 0 ON CONFLICT DO NOTHING`

/** Keeps the piece of a large file that begins at byte (`number` - 1) times `FILE_CHUNK_BYTES`; one that is kept already stays. */
export function insertFileChunk({ statement }: Connection, sha256: string, number: number, bytes: Uint8Array): void {
  statement(CHUNK).run(number, Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength), sha256)
}

function keepBytes(connection: Connection, bytes: Uint8Array): BytesToCome {
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  const byteCount = bytes.byteLength
  const isLarge = byteCount > FILE_CHUNK_BYTES
  connection.statement(BYTES).run(sha256, isLarge ? Buffer.alloc(0) : Buffer.from(bytes))
  for (let from = 0; isLarge && from < byteCount; from += FILE_CHUNK_BYTES) {
    insertFileChunk(connection, sha256, from / FILE_CHUNK_BYTES + 1, bytes.subarray(from, from + FILE_CHUNK_BYTES))
  }
  return { sha256, byteCount }
}

function announceBytes({ statement }: Connection, bytes: BytesToCome): BytesToCome {
  if (bytes.byteCount <= FILE_CHUNK_BYTES) throw new RangeError('A small file is kept in one piece.')
  statement(BYTES).run(bytes.sha256, Buffer.alloc(0))
  return bytes
}

/** Keeps a file and returns its number. The same bytes received twice are kept once. */
export function insertFile(connection: Connection, file: NewFile): number {
  const { sha256, byteCount } = file.bytes instanceof Uint8Array ? keepBytes(connection, file.bytes) : announceBytes(connection, file.bytes)
  const { name, kind, source, receivedAt, receivedBy, rowsInFile, refusedWhole } = file
  const cells = [
    name,
    sha256,
    byteCount,
    kind,
    source,
    receivedAt,
    receivedBy,
    rowsInFile,
    refusedWhole?.reason ?? null,
    refusedWhole?.sentence ?? null,
  ]
  const id = connection.insert(FILE, ...cells)
  if (file.counts !== null) setFileCounts(connection, id, file.counts)
  return id
}

const COUNTS =
  'UPDATE intake_file SET rows_read = ?, filed = ?, known = ?, corrected = ?, held = ?, refused = ?, released = ?, patients_added = ? WHERE id = ?'

/** Writes what became of a file's rows. Throws where the parts do not add up to the rows read. */
export function setFileCounts({ statement }: Connection, id: number, counts: FileCounts): void {
  const { rows, filed, known, corrected, held, refused, released, patientsAdded } = counts
  statement(COUNTS).run(rows, filed, known, corrected, held, refused, released, patientsAdded, id)
}
