import { createHash } from 'node:crypto'
import type { Connection } from '../connection.ts'
import type { FileCounts, StoredFile } from '../read/files.ts'
import { insertSql } from './insert.ts'

/** A file to be kept with its bytes. Counts may follow with `setFileCounts`. */
export type NewFile = Pick<StoredFile, 'name' | 'kind' | 'source' | 'rowsInFile' | 'receivedAt' | 'receivedBy' | 'refusedWhole'> & {
  readonly bytes: Uint8Array
  readonly counts: FileCounts | null
}

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

/** Keeps a file and returns its number. The same bytes received twice are kept once. */
export function insertFile(connection: Connection, file: NewFile): number {
  const sha256 = createHash('sha256').update(file.bytes).digest('hex')
  connection.statement('INSERT INTO intake_file_bytes (sha256, bytes) VALUES (?, ?) ON CONFLICT DO NOTHING').run(sha256, Buffer.from(file.bytes))
  const { name, kind, source, receivedAt, receivedBy, rowsInFile, refusedWhole } = file
  const cells = [
    name,
    sha256,
    file.bytes.byteLength,
    kind,
    source,
    receivedAt,
    receivedBy,
    rowsInFile,
    refusedWhole?.reason ?? null,
    refusedWhole?.sentence ?? null,
  ]
  const id = Number(connection.statement(FILE).run(...cells).lastInsertRowid)
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
