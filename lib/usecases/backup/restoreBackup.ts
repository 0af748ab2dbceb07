import { existsSync, mkdirSync, rmSync, statSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { databasePath, inspectDatabase, NotOpened, NotWhole, openStore, type Store } from '../../store/index.ts'
import type { Outcome } from '../call.ts'
import { consoleCall } from '../consoleCall.ts'
import { type Recheck, recheck } from '../standing/recheck.ts'
import { requireAgreement } from './agrees.ts'
import type { Manifest } from './manifest.ts'
import { type Opening, openBackup } from './openBackup.ts'
import { beginPart, clearParts, dropPart } from './parts.ts'
import { place } from './place.ts'
import { invalid, NoBackup } from './refusal.ts'
import { unlessStopped } from './unlessStopped.ts'

export interface RestoreWish extends Opening {
  readonly file: string
  /** `file:...`: where the database will be. */
  readonly databaseUrl: string
  /** Who does it, for the log. */
  readonly user: string
  readonly onStep: (says: string) => void
}

/** What was restored, and what was found when everything in it was looked at. */
export interface Restored {
  readonly database: string
  readonly head: { readonly sequence: number; readonly hash: string }
  readonly sessionsEnded: number
  readonly codesEnded: number
  readonly recheck: Recheck
  readonly logRows: number
  readonly manifest: Manifest | null
}

const isThere = (path: string): boolean => existsSync(/* turbopackIgnore: true */ path)
const holdsAnything = (path: string): boolean => isThere(path) && statSync(/* turbopackIgnore: true */ path).size > 0

/** A database is never overwritten; nor is a write-ahead log left beside it, which SQLite would read into the restored file. */
function requireRoom(database: string): void {
  const taken = ['', '-wal', '-shm', '-journal'].map((suffix) => `${database}${suffix}`).filter(holdsAnything)
  if (taken.length === 0) return
  throw new NoBackup(
    `There is a database already (${taken.join(', ')}), and a restore overwrites nothing. Stop Lowmark, move it away with everything that begins with ${database}, and restore again.`,
  )
}

/** What is done in the restored copy before it has its name. */
async function makeOurs(store: Store, { user, onStep }: RestoreWish, sha256: string): Promise<Omit<Restored, 'database' | 'manifest'>> {
  const head = store.reader.trailHead()
  const call = consoleCall(store, user)
  const { sessions, codes } = await store.record(call, (tx) => {
    const ended = tx.endWhatOpens(call.now)
    const { sequence: headSequence, hash: headHash } = head
    return { value: ended, events: [{ action: 'restored', sha256, headSequence, headHash, sessionsEnded: ended.sessions, codesEnded: ended.codes }] }
  })
  onStep('Evaluating every patient afresh ...')
  const rechecked = await recheck(call)
  if (!rechecked.ok) throw new NoBackup(rechecked.reason)
  onStep('Checking the log ...')
  const { rows, firstBad } = store.reader.verifyTrail()
  if (firstBad !== null) throw new NotWhole(`its log does not fit from row ${firstBad} on`)
  return { head, sessionsEnded: sessions, codesEnded: codes, recheck: rechecked.value, logRows: rows }
}

async function restoreInto(part: string, database: string, wish: RestoreWish): Promise<Restored> {
  const { file, onStep } = wish
  onStep(`Reading ${file} ...`)
  const { manifest, sha256 } = await openBackup(file, part, wish)
  onStep('Checking the database in it ...')
  requireAgreement(file, inspectDatabase(part), manifest)
  const store = await openStore(`file:${part}`)
  let made: Omit<Restored, 'database' | 'manifest'>
  try {
    made = await makeOurs(store, wish, sha256)
  } finally {
    await store.close()
  }
  if (holdsAnything(`${part}-wal`)) throw new NoBackup('The restored database could not be closed whole. Restore again.')
  requireRoom(database)
  for (const suffix of ['', '-wal', '-shm', '-journal']) rmSync(`${database}${suffix}`, { force: true })
  place(part, database)
  return { database, manifest, ...made }
}

/**
 * Restores a backup where there is no database: read, decrypted and verified under another name, migrated, every session ended, every patient evaluated
 * afresh, the log checked; only then it has its name. Whatever goes wrong, nothing is left.
 */
export async function restoreBackup(given: RestoreWish): Promise<Outcome<Restored>> {
  const wish = { ...given, file: resolve(/* turbopackIgnore: true */ process.cwd(), given.file) }
  let part: string | null = null
  try {
    const database = databasePath(wish.databaseUrl)
    requireRoom(database)
    mkdirSync(dirname(database), { recursive: true, mode: 0o700 })
    for (const left of clearParts(dirname(database))) wish.onStep(`Took away what an earlier run had left: ${left}`)
    const begun = beginPart(database)
    part = begun
    return { ok: true, value: await unlessStopped(() => restoreInto(begun, database, wish)) }
  } catch (error) {
    if (error instanceof NotWhole) return invalid(`${wish.file} is no whole backup: ${error.message}. Use another backup.`)
    if (error instanceof NoBackup || error instanceof NotOpened) return invalid(error.message)
    const { code, message } = error as NodeJS.ErrnoException
    return { ok: false, kind: 'unavailable', reason: `Nothing was restored, and nothing of it is left (${code ?? 'error'}: ${message}).` }
  } finally {
    if (part !== null) dropPart(part)
  }
}
