import { readFileSync } from 'node:fs'
import { z } from 'zod'
import { NoBackup } from './refusal.ts'

const SHA256 = z.string().regex(/^[0-9a-f]{64}$/)

const MANIFEST = z.strictObject({
  what: z.literal('lowmark-backup'),
  /** UTC, ISO 8601: when the copy was begun. */
  at: z.iso.datetime(),
  file: z.string(),
  bytes: z.int().positive(),
  /** Of the file as it lies there. */
  sha256: SHA256,
  /** Of the database in it: another one where the file is encrypted. */
  databaseSha256: SHA256,
  encrypted: z.boolean(),
  /** Which database it is a copy of. */
  origin: SHA256,
  logHead: z.strictObject({ sequence: z.int().positive(), hash: SHA256 }),
  rows: z.record(z.string(), z.int().nonnegative()),
  schema: z.string(),
  program: z.string(),
})

/** What is said of a backup in the small file beside it. Counts and hashes, nothing of a patient. */
export type Manifest = z.infer<typeof MANIFEST>

/** Where the manifest of a backup lies. */
export function manifestPath(file: string): string {
  return `${file}.json`
}

export function manifestText(manifest: Manifest): string {
  return `${JSON.stringify(manifest, null, 2)}\n`
}

/** The manifest beside a backup; null where none is there. Throws NoBackup for a file there that is none. */
export function readManifest(file: string): Manifest | null {
  const path = manifestPath(file)
  let text: string
  try {
    text = readFileSync(/* turbopackIgnore: true */ path, 'utf8')
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null
    throw error
  }
  try {
    return MANIFEST.parse(JSON.parse(text))
  } catch {
    throw new NoBackup(`${path} is not the manifest of a backup, so ${file} cannot be checked against it. Fetch both from where they were kept.`)
  }
}
