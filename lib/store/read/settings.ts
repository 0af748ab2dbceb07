import type { Connection } from '../connection.ts'

/** What is kept under a key; null where nothing is. */
export function settingOf({ statement }: Connection, key: string): string | null {
  return statement<{ value: string }>('SELECT value FROM setting WHERE key = ?').get(key)?.value ?? null
}

/** True when no patient, file or account is there; the log and settings do not count. */
export function isEmptyStore({ statement }: Connection): boolean {
  const sql = 'SELECT EXISTS (SELECT 1 FROM patient) OR EXISTS (SELECT 1 FROM intake_file) OR EXISTS (SELECT 1 FROM account) AS used'
  return statement<{ used: number }>(sql).get()?.used === 0
}
