import { mkdirSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { databaseUrl, inspectDatabase, NotOpened, NotWhole, placeOnThisMachine } from '../../store/index.ts'
import type { Outcome } from '../call.ts'
import { requireAgreement } from './agrees.ts'
import { sha256Of } from './digest.ts'
import type { Manifest } from './manifest.ts'
import { kindOf, manifestFor, type Opening, openBackup } from './openBackup.ts'
import { beginPart, clearParts, dropPart } from './parts.ts'
import { invalid, NoBackup } from './refusal.ts'
import { unlessStopped } from './unlessStopped.ts'

/** What checking a backup again found: `bytes` compared its bytes alone, `inside` opened it as well. */
export interface BackupVerdict {
  readonly checked: 'bytes' | 'inside'
  readonly manifest: Manifest | null
  readonly rows: Readonly<Record<string, number>> | null
  /** False where an older version made it: its log is checked when it is restored. Null where it was not opened. */
  readonly logChecked: boolean | null
}

async function bytesAlone(file: string): Promise<BackupVerdict> {
  const manifest = manifestFor(file, 'encrypted', false)
  if (manifest === null)
    throw new NoBackup(`${file} is encrypted and has no manifest beside it: without --identity-file FILE nothing of it can be checked.`)
  if ((await sha256Of(file)) !== manifest.sha256)
    throw new NoBackup(`${file} is not what was verified when it was made: it was cut off or changed since. Use another backup.`)
  return { checked: 'bytes', manifest, rows: null, logChecked: null }
}

async function inside(file: string, opening: Opening): Promise<BackupVerdict> {
  const database = placeOnThisMachine(databaseUrl())
  mkdirSync(dirname(database), { recursive: true, mode: 0o700 })
  clearParts(dirname(database))
  const part = beginPart(database)
  try {
    const { manifest } = await openBackup(file, part, opening)
    const facts = inspectDatabase(part)
    requireAgreement(file, facts, manifest)
    return { checked: 'inside', manifest, rows: facts.rows, logChecked: facts.logChecked }
  } finally {
    dropPart(part)
  }
}

/** Checks a backup again, changing nothing. It needs no database: what it answers is counts and hashes of a file that whoever asks can read. */
export async function verifyBackup(given: string, opening: Opening): Promise<Outcome<BackupVerdict>> {
  const file = resolve(/* turbopackIgnore: true */ process.cwd(), given)
  try {
    const sealed = kindOf(file) === 'encrypted' && opening.identityFile === null
    return { ok: true, value: sealed ? await bytesAlone(file) : await unlessStopped(() => inside(file, opening)) }
  } catch (error) {
    if (error instanceof NotWhole) return invalid(`${file} is no whole backup: ${error.message}. Use another backup.`)
    if (error instanceof NoBackup || error instanceof NotOpened) return invalid(error.message)
    throw error
  }
}
