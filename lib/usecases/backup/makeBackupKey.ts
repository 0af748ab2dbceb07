import { resolve } from 'node:path'
import type { Outcome } from '../call.ts'
import { makeIdentity } from './keys.ts'
import { invalid, NoBackup } from './refusal.ts'

/** Makes the key of encrypted backups: the identity in a new file, the recipient as the answer. It touches no database. */
export async function makeBackupKey(given: string): Promise<Outcome<{ readonly file: string; readonly recipient: string }>> {
  const file = resolve(/* turbopackIgnore: true */ process.cwd(), given)
  try {
    return { ok: true, value: { file, recipient: await makeIdentity(file, new Date().toISOString()) } }
  } catch (error) {
    if (error instanceof NoBackup) return invalid(error.message)
    throw error
  }
}
