import type { Connection } from '../connection.ts'
import type { LogRange } from '../read/logRanges.ts'
import { insertSql } from './insert.ts'

const INSERT = insertSql('log_range', [
  'id',
  'first_sequence',
  'last_sequence',
  'row_count',
  'previous_hash',
  'last_hash',
  'file_sha256',
  'retired_by',
  'retired_at',
])

/**
 * Removes the oldest entries of the log and keeps what is needed to go on from them. Throws, and changes nothing, where they are not the oldest, where
 * their hashes are not those of the log, where one is younger than six years, or where no row would be left.
 */
export function retireRange({ statement }: Connection, range: Omit<LogRange, 'id'>): void {
  const id = (statement<{ last: number | null }>('SELECT max(id) AS last FROM log_range').get()?.last ?? 0) + 1
  const { first, last, previousHash, lastHash, fileSha256, retiredBy, retiredAt } = range
  statement(INSERT).run(id, first, last, last - first + 1, previousHash, lastHash, fileSha256, retiredBy, retiredAt)
  statement('DELETE FROM trail WHERE sequence BETWEEN ? AND ?').run(first, last)
}
