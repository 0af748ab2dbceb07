import { rmSync, statSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { type DatabaseFacts, inspectDatabase, NotWhole, type Store } from '../../store/index.ts'
import { sha256Of } from './digest.ts'
import { type Manifest, manifestPath, manifestText } from './manifest.ts'
import { beginPart, dropPart } from './parts.ts'
import { place, toDisk } from './place.ts'
import { PROGRAM } from './program.ts'
import { NoBackup } from './refusal.ts'
import { sealFile } from './seal.ts'

interface Writing {
  readonly store: Store
  readonly at: string
  readonly file: string
  readonly recipients: readonly string[] | null
}

function verified(copy: string): DatabaseFacts {
  try {
    return inspectDatabase(copy)
  } catch (error) {
    if (!(error instanceof NotWhole)) throw error
    throw new NoBackup(
      `The copy is not whole: ${error.message}. The database itself is damaged; keep every earlier backup, and follow docs/backup.md, "When the database is damaged".`,
    )
  }
}

/** The manifest first, the backup last, so that what has the final name is complete. A manifest alone promises nothing, so it does not stay. */
function placeBoth(beside: string, backup: string, file: string): void {
  place(beside, manifestPath(file))
  try {
    place(backup, file)
  } catch (error) {
    rmSync(manifestPath(file), { force: true })
    throw error
  }
}

/**
 * Copies, verifies and only then names. Whatever goes wrong, nothing is left. Throws NoBackup, or the error of the disk or of SQLite.
 */
export async function writeBackup({ store, at, file, recipients }: Writing): Promise<Manifest> {
  // What is not encrypted yet stays on the disk that is trusted with the same data.
  const copy = beginPart(recipients === null ? file : store.path)
  const sealed = recipients === null ? null : beginPart(file)
  const beside = beginPart(manifestPath(file))
  try {
    store.copyTo(copy)
    toDisk(copy)
    const facts = verified(copy)
    const databaseSha256 = await sha256Of(copy)
    const written =
      sealed === null || recipients === null ? { sha256: databaseSha256, bytes: statSync(copy).size } : await sealFile(copy, sealed, recipients)
    // From here on the only copy that anybody can read is the database itself.
    if (sealed !== null) dropPart(copy)
    const { origin, head, rows, schema } = facts
    const encrypted = sealed !== null
    const manifest: Manifest = {
      ...{ what: 'lowmark-backup', at, file: basename(file), ...written, databaseSha256, encrypted, origin },
      ...{ logHead: { sequence: head.sequence, hash: head.hash }, rows, schema, program: PROGRAM },
    }
    // What the disk gives back, not what was meant to be on it.
    if ((await sha256Of(sealed ?? copy)) !== written.sha256) throw new NoBackup('What was written does not read back the same. Check the disk.')
    writeFileSync(beside, manifestText(manifest))
    placeBoth(beside, sealed ?? copy, file)
    return manifest
  } finally {
    for (const part of [copy, sealed, beside]) if (part !== null) dropPart(part)
  }
}
