import { dirname } from 'node:path'
import { isOnServer, NotOpened } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { KEPT, keptBackup } from '../health/kept.ts'
import { type Destination, destinationOf } from './backupName.ts'
import { type Kept, keepLast } from './keepLast.ts'
import { readRecipients } from './keys.ts'
import type { Manifest } from './manifest.ts'
import { clearParts } from './parts.ts'
import { consoleOnly, invalid, NoBackup } from './refusal.ts'
import { unlessStopped } from './unlessStopped.ts'
import { writeBackup } from './writeBackup.ts'

export interface BackupWish {
  /** A file that is not there yet, or a folder. */
  readonly to: string
  /** How many backups of this database stay in the folder; null: all. */
  readonly keep: number | null
  /** A file of recipients; null: not encrypted. */
  readonly recipientFile: string | null
}

export interface BackupMade extends Kept {
  readonly file: string
  readonly manifest: Manifest
  /** What backups ended half way had left, now taken away. */
  readonly leftovers: readonly string[]
}

interface Ready {
  readonly destination: Destination
  readonly recipients: readonly string[] | null
}

function prepare({ to, keep, recipientFile }: BackupWish, now: string): Ready {
  const recipients = recipientFile === null ? null : readRecipients(recipientFile)
  const destination = destinationOf(to, now, recipients !== null)
  if (keep !== null && !destination.named) throw new NoBackup('--keep N needs a folder: only there are the names ours.')
  return { destination, recipients }
}

interface Afterwards {
  readonly wish: BackupWish
  readonly ready: Ready
  readonly manifest: Manifest
}

const NOTHING_REMOVED: Kept = { removed: [], changed: [], problem: null }

/** Why there is no backup, in a word for the log: nothing of a path or of the database. */
function reasonOf(error: unknown): string {
  if (error instanceof NoBackup) return 'not-whole'
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  if (/^(?:ENOSPC|SQLITE_FULL|EFBIG|EDQUOT)/.test(code)) return 'disk-full'
  return /^[A-Z_]{2,40}$/.test(code) ? code.toLowerCase().replaceAll('_', '-') : 'unknown'
}

/** A failure is entered where it can be; on a full disk it may not be, and the next health check says so. */
async function enterFailure(call: Call, error: unknown): Promise<void> {
  const reason = reasonOf(error)
  const after = { ...call, now: new Date().toISOString() }
  await call.store
    .record(after, (tx) => ({
      value: tx.setSetting(KEPT.backupFailed, JSON.stringify({ at: after.now, reason })),
      events: [{ action: 'backup-made', outcome: 'failure', reason, bytes: 0, sha256: null, headSequence: null, removed: 0 }],
    }))
    .catch(() => undefined)
}

function whyNot(error: unknown): Outcome<never> {
  if (error instanceof NoBackup) return invalid(error.message)
  if (error instanceof NotOpened) return invalid(error.message)
  const { code, message } = error as NodeJS.ErrnoException
  const full = reasonOf(error) === 'disk-full' ? ' The disk is full: make room, or name another one.' : ''
  return { ok: false, kind: 'unavailable', reason: `There is no backup, and nothing of it is left (${code ?? 'error'}: ${message}).${full}` }
}

/** The backup has its name. Removing older ones may fail, and entering it may: neither takes back that it is there. */
async function afterwards(call: Call, { wish, ready: { destination }, manifest }: Afterwards): Promise<Outcome<Omit<BackupMade, 'leftovers'>>> {
  const { file, named } = destination
  const kept = wish.keep !== null && named ? await keepLast(dirname(file), wish.keep, manifest.origin) : NOTHING_REMOVED
  const { bytes, sha256, logHead } = manifest
  const after = { ...call, now: new Date().toISOString() }
  const made = { action: 'backup-made', outcome: 'success', reason: null, bytes, sha256, headSequence: logHead.sequence } as const
  try {
    await call.store.record(after, (tx) => ({
      value: tx.setSetting(KEPT.backupMade, JSON.stringify(keptBackup(manifest))),
      events: [{ ...made, removed: kept.removed.length }],
    }))
  } catch (error) {
    const reason = `The backup ${file} was made and is whole, but that could not be entered in the log (${(error as Error).message}).`
    return { ok: false, kind: 'unavailable', reason }
  }
  return { ok: true, value: { file, manifest, ...kept } }
}

const BY_ITS_SERVER =
  'This database lies on a PostgreSQL server, and the server backs it up (docs/postgresql.md says how, and how to check it). Nothing was copied.'

/**
 * Makes a backup while the program runs, and verifies it before it has a name. That one was begun is entered before the copy, so that the copy holds
 * it; whether it was made, after: no backup can say of itself that it is whole. For whoever keeps the machine.
 */
export async function makeBackup(call: Call, wish: BackupWish): Promise<Outcome<BackupMade>> {
  const refused = consoleOnly(call.actor.role)
  if (refused !== null) return refused
  if (isOnServer(call.store.url)) return invalid(BY_ITS_SERVER)
  let begun = false
  try {
    const prepared = prepare(wish, call.now)
    const { recipients } = prepared
    const { file } = prepared.destination
    const leftovers = [...new Set([dirname(file), dirname(call.store.path)])].flatMap(clearParts)
    await call.store.record(call, () => ({ value: null, events: [{ action: 'backup-begun', encrypted: recipients !== null }] }))
    begun = true
    const manifest = await unlessStopped(() => writeBackup({ store: call.store, at: call.now, file, recipients }))
    const made = await afterwards(call, { wish, ready: prepared, manifest })
    return made.ok ? { ok: true, value: { ...made.value, leftovers } } : made
  } catch (error) {
    if (begun) await enterFailure(call, error)
    return whyNot(error)
  }
}
