import type { Connection } from '../connection.ts'
import type { LogRange } from '../read/logRanges.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

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
export function retireRange(connection: Connection, range: Omit<LogRange, 'id'>): void {
  const { first, last, previousHash, lastHash, fileSha256, retiredBy, retiredAt } = range
  connection
    .statement(INSERT)
    .run(nextId(connection, 'log_range'), first, last, last - first + 1, previousHash, lastHash, fileSha256, retiredBy, retiredAt)
  connection.statement('DELETE FROM trail WHERE sequence BETWEEN ? AND ?').run(first, last)
}
