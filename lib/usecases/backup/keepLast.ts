import { readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { OUR_NAME } from './backupName.ts'
import { sha256Of } from './digest.ts'
import { type Manifest, manifestPath, readManifest } from './manifest.ts'
import { NoBackup } from './refusal.ts'

/** What became of the backups that were there before. */
export interface Kept {
  readonly removed: readonly string[]
  /** Ours by name and manifest, but no longer the bytes that were verified: neither counted nor removed. */
  readonly changed: readonly string[]
  /** Why no more could be removed; null where all was. */
  readonly problem: string | null
}

function manifestOrNull(file: string): Manifest | null {
  try {
    return readManifest(file)
  } catch (error) {
    if (error instanceof NoBackup) return null
    throw error
  }
}

async function sortOut(directory: string, origin: string, whole: string[], changed: string[]): Promise<void> {
  // The time is the first thing in the name that differs, so the names are in order of time.
  for (const name of readdirSync(/* turbopackIgnore: true */ directory)
    .filter((name) => OUR_NAME.test(name))
    .toSorted()) {
    const file = join(/* turbopackIgnore: true */ directory, name)
    const manifest = manifestOrNull(file)
    if (manifest === null || manifest.file !== name || manifest.origin !== origin) continue
    if ((await sha256Of(file)) === manifest.sha256) whole.push(file)
    else changed.push(file)
  }
}

/**
 * Removes the oldest backups of this database in a folder beyond the last `keep`. Ours is what has a name of ours and beside it a manifest of this
 * database for this very name; it counts while its bytes are the ones that were verified. Nothing else is touched.
 */
export async function keepLast(directory: string, keep: number, origin: string): Promise<Kept> {
  const whole: string[] = []
  const changed: string[] = []
  const removed: string[] = []
  try {
    await sortOut(directory, origin, whole, changed)
    for (const file of whole.slice(0, Math.max(0, whole.length - keep))) {
      // The backup first: a manifest alone promises nothing.
      rmSync(file)
      rmSync(manifestPath(file))
      removed.push(file)
    }
    return { removed, changed, problem: null }
  } catch (error) {
    return { removed, changed, problem: (error as Error).message }
  }
}
