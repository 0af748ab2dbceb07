import type { Connection } from '../connection.ts'
import type { FileKind } from './held.ts'

/** How many rows of a file became what. rows = filed + known + corrected + held + refused. */
export interface FileCounts {
  readonly rows: number
  readonly filed: number
  readonly known: number
  readonly corrected: number
  readonly held: number
  readonly refused: number
  /** Rows held earlier that this file let be filed. */
  readonly released: number
  /** Patients its results brought, from a source trusted to add them. */
  readonly patientsAdded: number
}

/** A file that came in. */
export interface StoredFile extends FileCounts {
  /** Rows the file has: more than `rows` while it is being taken in, or where that was interrupted. */
  readonly rowsInFile: number
  readonly id: number
  readonly name: string
  readonly sha256: string
  readonly byteCount: number
  readonly kind: FileKind | null
  readonly source: string | null
  readonly receivedAt: string
  readonly receivedBy: string
  readonly refusedWhole: { readonly reason: string; readonly sentence: string } | null
}

interface Row extends FileCounts {
  readonly rowsInFile: number
  readonly id: number
  readonly name: string
  readonly sha256: string
  readonly byteCount: number
  readonly kind: FileKind | null
  readonly source: string | null
  readonly receivedAt: string
  readonly receivedBy: string
  readonly refusedReason: string | null
  readonly refusedSentence: string | null
}

const SELECT = `SELECT id, name, sha256, byte_count AS byteCount, kind, source, received_at AS receivedAt, received_by AS receivedBy,
  rows_in_file AS rowsInFile, rows_read AS rows, filed, known, corrected, held, refused, released, patients_added AS patientsAdded,
  refused_whole_reason AS refusedReason, refused_whole_sentence AS refusedSentence FROM intake_file`

function storedFile({ refusedReason: reason, refusedSentence: sentence, ...file }: Row): StoredFile {
  return { ...file, refusedWhole: reason === null || sentence === null ? null : { reason, sentence } }
}

/** The files that came in, latest first. */
export function recentFiles({ statement }: Connection, count: number): StoredFile[] {
  return statement<Row>(`${SELECT} ORDER BY id DESC LIMIT ?`).all(count).map(storedFile)
}

/** The files that came from a source, latest first. */
export function filesOfSource({ statement }: Connection, source: string, count: number): StoredFile[] {
  return statement<Row>(`${SELECT} WHERE source = ? ORDER BY id DESC LIMIT ?`).all(source, count).map(storedFile)
}

/** One file; null where the number is nobody's. */
export function fileById({ statement }: Connection, id: number): StoredFile | null {
  const row = statement<Row>(`${SELECT} WHERE id = ?`).get(id)
  return row === undefined ? null : storedFile(row)
}

/** A refused or held row of a file. */
export interface RefusedRow {
  readonly line: number
  readonly reason: string
  readonly sentence: string
  readonly row: string
}

/** The refused rows of a file, in its order. */
export function refusedRows({ statement }: Connection, fileId: number): RefusedRow[] {
  return statement<RefusedRow>('SELECT line, reason, sentence, row FROM refused_row WHERE file_id = ? ORDER BY line, id').all(fileId)
}
