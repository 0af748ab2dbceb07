import { randomUUID } from 'node:crypto'
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { openStore, type Store } from '../../lib/store/index.ts'
import { consoleCall, recheck } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { addPerson, callOf, granted } from '../usecases/accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { json, lowmark, type Ran } from './terminal.ts'

/** A small clinic with something in every kind of place, and folders beside it that are taken away with it. */
export interface SmallClinic {
  readonly url: string
  readonly store: Store
  /** A path under this test's own folder. */
  readonly at: (...names: string[]) => string
  readonly run: (...words: string[]) => Promise<Ran>
  /** The same on another machine: a database that is not there yet. */
  readonly elsewhere: (...words: string[]) => Promise<Ran>
  readonly elsewhereUrl: string
  readonly dispose: () => Promise<void>
}

export const PATIENTS = ['P1', 'P2', 'P3'] as const

export async function smallClinic(): Promise<SmallClinic> {
  const { store, url, dispose } = await freshStore()
  const folder = mkdtempSync(join(tmpdir(), 'lowmark-backup-'))
  mkdirSync(join(folder, 'backups'))
  // A test's database is copied from one that was migrated once; a clinic's is made by itself, with chance of its own.
  const outside = new Database(store.path)
  outside.prepare('UPDATE "_prisma_migrations" SET id = ? || migration_name').run(randomUUID())
  outside.close()
  await take(store, [
    csv(
      'patients.csv',
      PATIENTS.map((id) => patientRow({ patient_id: id })),
    ),
    csv(
      'course.csv',
      PATIENTS.flatMap((id) => courseRows(id)),
    ),
    csv(
      'results.csv',
      PATIENTS.map((id) => resultRow({ patient_id: id, accession: `A-${id}` })),
    ),
  ])
  await addPerson(store, 'nurse', 'navigator')
  await store.record(callOf(store), (tx) => {
    const account = tx.account('nurse')
    tx.insertSession({ id: 'a'.repeat(64), accountId: account?.id ?? 0, at: '2026-11-25T10:00:00.000Z', address: null, means: 'password' })
    tx.insertAccount({
      name: 'new',
      role: 'quality',
      createdAt: '2026-11-25T10:00:00.000Z',
      codeHash: 'b'.repeat(64),
      codeExpiresAt: '2026-11-28T10:00:00.000Z',
    })
    return { value: null, events: [{ action: 'sign-in', outcome: 'success' }] }
  })
  const elsewhereUrl = `file:${join(folder, 'elsewhere', 'lowmark.db')}`
  return {
    url,
    store,
    at: (...names) => join(folder, ...names),
    run: (...words) => lowmark(url, ...words),
    elsewhere: (...words) => lowmark(elsewhereUrl, ...words),
    elsewhereUrl,
    async dispose() {
      await dispose()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

export interface BackupSaid {
  readonly path: string
  readonly sha256: string
  readonly databaseSha256: string
  readonly bytes: number
  readonly encrypted: boolean
  readonly logHead: { readonly sequence: number; readonly hash: string }
  readonly rows: Readonly<Record<string, number>>
  readonly removed: readonly string[]
  readonly changed: readonly string[]
  readonly leftovers: readonly string[]
}

/** Makes a backup and answers what it said. Throws where there is none. */
export async function backedUp(clinic: SmallClinic, ...words: string[]): Promise<BackupSaid> {
  const ran = await clinic.run('backup', ...words, '--json')
  if (ran.status !== 0) throw new Error(ran.err)
  return json<BackupSaid>(ran)
}

/** The identity's file and the recipient's, made by the command. */
export async function keysOf(clinic: SmallClinic, name = 'key'): Promise<{ identity: string; recipients: string }> {
  const identity = clinic.at(`${name}.identity`)
  const recipients = clinic.at(`${name}.recipient`)
  const made = await clinic.run('backup', 'key', identity)
  if (made.status !== 0) throw new Error(made.err)
  writeFileSync(recipients, `# for the backups\n${made.out}`)
  return { identity, recipients }
}

/** Turns one bit of a file over. */
export function flipBit(path: string, offset: number): void {
  const bytes = readFileSync(path)
  const at = (offset + bytes.length) % bytes.length
  bytes[at] = (bytes[at] ?? 0) ^ 1
  writeFileSync(path, bytes)
}

/** A copy of a backup and its manifest under another name, to be spoilt; the manifest goes on telling of what it was copied from. */
export function copyOf(backup: string, to: string): string {
  cpSync(backup, to)
  cpSync(`${backup}.json`, `${to}.json`)
  return to
}

/** Everything that lies in a folder, hidden names too; nothing where there is none. */
export function namesIn(folder: string): string[] {
  try {
    return readdirSync(folder).toSorted()
  } catch {
    return []
  }
}

/** Opens a database, looks at all of it as `recheck` and `log verify` do, and answers what `read` reads. Throws where anything is not as it must be. */
export async function lookedThrough<T>(url: string, read: (store: Store) => T): Promise<T> {
  const store = await openStore(url)
  try {
    const { differences } = granted(await recheck(consoleCall(store, 'tests')))
    if (differences.length > 0) throw new Error(`recheck finds ${JSON.stringify(differences)}`)
    const { firstBad } = store.reader.verifyTrail()
    if (firstBad !== null) throw new Error(`the log does not fit from row ${firstBad} on`)
    return read(store)
  } finally {
    await store.close()
  }
}
