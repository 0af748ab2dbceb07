import { closeSync, createReadStream, openSync, readSync, statSync } from 'node:fs'
import { readIdentities } from './keys.ts'
import { type Manifest, manifestPath, readManifest } from './manifest.ts'
import { NoBackup } from './refusal.ts'
import { AGE_BEGINS, openSealed, writePieces } from './seal.ts'

const DATABASE_BEGINS = 'SQLite format 3\0'

/** How to open a backup. */
export interface Opening {
  readonly identityFile: string | null
  /** Go on where no manifest lies beside it. */
  readonly withoutManifest: boolean
}

/** What a file is, told from how it begins. Throws NoBackup for anything else. */
export function kindOf(file: string): 'plain' | 'encrypted' {
  const begins = Buffer.alloc(AGE_BEGINS.length)
  try {
    if (!statSync(/* turbopackIgnore: true */ file).isFile()) throw new NoBackup(`${file} is no file. Name the backup itself.`)
    const open = openSync(/* turbopackIgnore: true */ file, 'r')
    try {
      readSync(open, begins, 0, begins.length, 0)
    } finally {
      closeSync(open)
    }
  } catch (error) {
    if (error instanceof NoBackup) throw error
    throw new NoBackup(`${file} cannot be read (${(error as NodeJS.ErrnoException).code ?? 'unknown'}).`)
  }
  const text = begins.toString('latin1')
  if (text === AGE_BEGINS) return 'encrypted'
  if (text.startsWith(DATABASE_BEGINS)) return 'plain'
  throw new NoBackup(`${file} is no backup of Lowmark: it begins like neither a database nor an encrypted file.`)
}

/** The manifest of a file; null where it has none and needs none. Throws NoBackup where it has none and cannot be checked without. */
export function manifestFor(file: string, kind: 'plain' | 'encrypted', withoutManifest: boolean): Manifest | null {
  const manifest = readManifest(file)
  if (manifest !== null || kind === 'encrypted' || withoutManifest) return manifest
  throw new NoBackup(
    `${manifestPath(file)} is missing. Without it a changed byte in ${file} may not be noticed. Put it beside the backup; where it is lost, say --without-manifest.`,
  )
}

function requireSame(file: string, is: string, was: string | undefined): void {
  if (was !== undefined && is !== was)
    throw new NoBackup(`${file} is not what was verified when it was made: it was cut off or changed since. Use another backup.`)
}

/**
 * Writes the database in a backup to `to`, an empty file, and compares every byte with the manifest, or with what the encryption promises. Answers the
 * manifest and the SHA-256 of the database. Throws NoBackup with what is wrong and what to do.
 */
export async function openBackup(
  file: string,
  to: string,
  { identityFile, withoutManifest }: Opening,
): Promise<{ manifest: Manifest | null; sha256: string }> {
  const kind = kindOf(file)
  const manifest = manifestFor(file, kind, withoutManifest)
  if (kind === 'plain') {
    const { sha256 } = await writePieces(createReadStream(/* turbopackIgnore: true */ file), to)
    requireSame(file, sha256, manifest?.sha256)
    return { manifest, sha256 }
  }
  if (identityFile === null) throw new NoBackup(`${file} is encrypted. Give the identity that opens it: --identity-file FILE.`)
  const { sealedSha256, opened } = await openSealed(file, to, readIdentities(identityFile))
  requireSame(file, sealedSha256, manifest?.sha256)
  requireSame(file, opened.sha256, manifest?.databaseSha256)
  return { manifest, sha256: opened.sha256 }
}
