import type { Connection } from '../connection.ts'
import type { StoredLogReview } from '../read/logReviews.ts'
import { insertSql } from './insert.ts'
import { nextId } from './nextId.ts'

const INSERT = insertSql('log_review', ['id', 'from_day', 'to_day', 'reviewed_by', 'reviewed_at', 'looked_at', 'note', 'entries', 'own_entries'])

/** Keeps a review of the log and returns its number. */
export function insertLogReview(connection: Connection, review: Omit<StoredLogReview, 'id'>): number {
  const id = nextId(connection, 'log_review')
  const { from, to, by, at, lookedAt, note, entries, ownEntries } = review
  connection.statement(INSERT).run(id, from, to, by, at, JSON.stringify(lookedAt), note, entries, ownEntries)
  return id
}
