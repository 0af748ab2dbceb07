import { closeSync, openSync, readSync, statSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import type Database from 'better-sqlite3'
import { NotOpened } from './notOpened.ts'

const sizeOf = (path: string): number | null => statSync(path, { throwIfNoEntry: false })?.size ?? null

// Another program may be making it at this moment.
const PATIENCE_MS = 3_000

/** Refuses an empty file where a database should be: SQLite would take it for a new one and throw the write-ahead log beside it away. */
export async function requireNotEmpty(path: string): Promise<void> {
  for (let waited = 0; sizeOf(path) === 0; waited += 50) {
    if (waited >= PATIENCE_MS) {
      throw new NotOpened(
        `The database file ${path} is empty. Restore the last backup; or, if nothing was ever kept in it, remove it, and a new one is made.`,
      )
    }
    await pause(50)
  }
}

/** In how many frames the shared index of the write-ahead log knows something, and how long each is (SQLite's "WAL-Index Header", fileformat2). */
function framesKnown(path: string): { readonly frames: number; readonly frameBytes: number } {
  const head = Buffer.alloc(20)
  const file = openSync(path, 'r')
  try {
    if (readSync(file, head, 0, head.length, 0) < head.length) return { frames: 0, frameBytes: 0 }
  } finally {
    closeSync(file)
  }
  // In the byte order of the machine, which is little-endian wherever this program runs.
  return { frames: head.readUInt32LE(16), frameBytes: 24 + head.readUInt16LE(14) }
}

const LOG_HEAD_BYTES = 32

function isLogMissing(path: string): boolean {
  if (sizeOf(`${path}-shm`) === null) return false
  const { frames, frameBytes } = framesKnown(`${path}-shm`)
  return frames > 0 && (sizeOf(`${path}-wal`) ?? 0) < LOG_HEAD_BYTES + frames * frameBytes
}

/**
 * Refuses a database whose write-ahead log was taken away or cut short while its index still tells of it: what was acknowledged last may have stood there.
 * Where both are gone nothing on this machine tells; a head of the log that is kept elsewhere does.
 */
export async function requireItsLog(path: string): Promise<void> {
  if (!isLogMissing(path)) return
  // The last program to close takes the index away first and then the log: between the two they may be seen apart.
  await pause(100)
  if (!isLogMissing(path)) return
  throw new NotOpened(
    `Beside ${path} the write-ahead log (-wal) is missing or cut short, and what was kept last may have stood in it. Put it back; else restore the last backup. To go on without it all the same, move the -shm file away and compare "log head" with one kept elsewhere.`,
  )
}

/** Refuses a database another program made: tables, and none of ours. */
export function requireOurs(db: Database.Database, path: string): void {
  const foreign = db.prepare<[], string>("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' LIMIT 1").pluck().get()
  if (foreign === undefined) return
  throw new NotOpened(
    `${path} is a database of another program (it has a table "${foreign}" and none of Lowmark). Name the right file in DATABASE_URL.`,
  )
}

/** Refuses a database whose pages do not fit together. Reads all of it. */
export function requireSound(db: Database.Database): void {
  const says = String(db.pragma('quick_check(1)', { simple: true })).replaceAll(/\s+/g, ' ')
  if (says === 'ok') return
  throw new NotOpened(
    `The database file is damaged (${says}). Stop every program that uses it, keep the file and those beside it as they are, and restore the last backup.`,
  )
}
