import type Database from 'better-sqlite3'
import { NotOpened } from './notOpened.ts'

/** What every connection runs under, as SQLite answers when it is read back. */
const REQUIRED = [
  { name: 'journal_mode', set: 'WAL', reads: 'wal', why: 'readers must not wait for the writer' },
  { name: 'synchronous', set: 'FULL', reads: 2, why: 'what was acknowledged must survive a power cut' },
  { name: 'foreign_keys', set: 'ON', reads: 1, why: 'no result without its patient and file' },
] as const

/** The settings as SQL, for a connection that is reached only through SQL. */
export function pragmaScript(waitMs: number): string {
  return [...REQUIRED.map(({ name, set }) => `PRAGMA ${name} = ${set};`), `PRAGMA busy_timeout = ${waitMs};`, 'PRAGMA query_only = ON;'].join('\n')
}

/**
 * Reads the settings back through `ask` and throws NotOpened for the first that did not take.
 * A network share or a read-only disk is the usual cause: SQLite then falls back without an error.
 */
export function requirePragmas(ask: (name: string) => unknown, waitMs: number): void {
  for (const { name, set, reads, why } of [
    ...REQUIRED,
    { name: 'busy_timeout', set: String(waitMs), reads: waitMs, why: 'two programs may write in turn' },
  ]) {
    const answer = ask(name)
    if (answer !== reads) {
      throw new NotOpened(
        `The database does not keep ${name} = ${set} (it answers ${String(answer)}), and ${why}. Put the file on a local disk you may write to, and start again.`,
      )
    }
  }
}

/** Sets the settings on a connection of the driver and reads them back. Throws NotOpened when one does not take. */
export function setPragmas(db: Database.Database, waitMs: number): void {
  for (const { name, set } of REQUIRED) db.pragma(`${name} = ${set}`)
  db.pragma(`busy_timeout = ${waitMs}`)
  requirePragmas((name) => db.pragma(name, { simple: true }), waitMs)
}
