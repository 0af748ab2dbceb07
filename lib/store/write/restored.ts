import type { Connection } from '../connection.ts'

/** Ends everything that opened the database a copy was made of: sessions, and one-time codes that may have been used since. Counts both. */
export function endWhatOpens({ statement }: Connection, at: string): { readonly sessions: number; readonly codes: number } {
  const end =
    "UPDATE session SET ended_at = CASE WHEN last_seen_at > ? THEN last_seen_at ELSE ? END, ended_because = 'ended-by-administrator' WHERE ended_at IS NULL"
  const sessions = statement(end).run(at, at).changes
  const codes = statement('UPDATE account SET code_hash = NULL, code_expires_at = NULL WHERE code_hash IS NOT NULL').run().changes
  return { sessions, codes }
}
