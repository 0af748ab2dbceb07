import { chmodSync, closeSync, existsSync, mkdirSync, openSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { NotOpened } from './notOpened.ts'
import { requireItsLog, requireNotEmpty } from './ownFile.ts'
import { shownAddress } from './serverAddress.ts'

/** The address of the database this process works on: DATABASE_URL, or `var/lowmark.db` of where the program was started. */
export function databaseUrl(): string {
  return process.env.DATABASE_URL ?? 'file:./var/lowmark.db'
}

/** The file a database address names (`file:./var/x.db`, relative to where the program was started). Throws NotOpened for any other address. */
export function databasePath(url: string): string {
  const path = /^file:([^?]+)$/.exec(url)?.[1]
  if (path === undefined || path.includes(':memory:')) {
    throw new NotOpened(`The database address "${shownAddress(url)}" does not name a file. Write it as file:./var/lowmark.db (DATABASE_URL).`)
  }
  return resolve(/* turbopackIgnore: true */ process.cwd(), path)
}

const OWNER_ONLY = 0o600

/**
 * Makes the file and its directory where missing; either way only its owner may read it afterwards. Throws NotOpened where it cannot be, or where what lies
 * there is not the whole of a database.
 */
export async function ensureDatabaseFile(path: string): Promise<void> {
  if (existsSync(path)) {
    await requireNotEmpty(path)
    await requireItsLog(path)
  }
  try {
    mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
    closeSync(openSync(path, 'a', OWNER_ONLY))
    if ((statSync(path).mode & 0o777) !== OWNER_ONLY) chmodSync(path, OWNER_ONLY)
  } catch (error) {
    throw new NotOpened(
      `The database file ${path} cannot be made or kept to its owner alone (${(error as Error).message}). Choose a place you may write to.`,
    )
  }
}
