import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { chmodSync, copyFileSync, existsSync, mkdirSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { findingKey, workOnce } from './clinicWork.ts'
import { lowmark } from './console.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { flipBytes } from './flipBytes.ts'
import { acknowledgedIn, lawHolds } from './law.ts'
import { smallDisk } from './mounted.ts'
import { canMake } from './needs.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

let own: ReturnType<typeof ownFolder>
let url: string
let path: string
beforeEach(async () => {
  own = ownFolder()
  url = await clinicIn(own.folder)
  path = url.slice('file:'.length)
})
afterEach(() => own.remove())

const sha256 = () => (statSync(path).isDirectory() ? 'a directory' : createHash('sha256').update(readFileSync(path)).digest('hex'))
const change = (sql: string) => new Database(path).exec(sql).close()

/** What lies in the place of the database, and what is said of it. */
const WRONG: readonly (readonly [what: string, make: () => void, says: string])[] = [
  ['a text', () => writeFileSync(path, `${'patient_id,birth_date\n'.repeat(500)}`), 'is not a database of SQLite'],
  ['an empty file', () => truncateSync(path, 0), 'is empty. Restore the last backup'],
  ['a damaged first page', () => flipBytes(path, 1), 'or its first page is damaged'],
  ['a damaged schema', () => flipBytes(path, 1, 100, 400), 'restore the last backup'],
  ['a cut file', () => truncateSync(path, 20_000), 'the database file is damaged'],
  [
    'a directory',
    () => {
      rmSync(path)
      mkdirSync(path)
    },
    'Choose a place you may write to',
  ],
  [
    'a database of another program',
    () => {
      rmSync(path)
      change('CREATE TABLE orders (id INTEGER PRIMARY KEY)')
    },
    'is a database of another program (it has a table "orders"',
  ],
  [
    'a database of a newer version',
    () => change("INSERT INTO _prisma_migrations (id, checksum, migration_name) VALUES ('x', 'y', '20991231000000_later')"),
    'Start the newer version',
  ],
]

test.each(WRONG)('%s is refused by a command with what to do, and nothing is changed', async (_, make, says) => {
  make()
  const before = sha256()
  const { status, out, err } = await lowmark(url, ['list'])
  expect([status, out]).toEqual([1, ''])
  expect(err).toMatch(/^Nothing was done: /)
  expect(err).toContain(says)
  expect(err).not.toMatch(/\n\s+at /)
  expect(sha256()).toBe(before)
})

/** The start for a clinic on this database: what it ended with. It never gets as far as building pages. */
function serve() {
  const env = { ...process.env, DATABASE_URL: url, NEXTAUTH_SECRET: 'x'.repeat(40), NEXTAUTH_URL: 'http://127.0.0.1:3000' }
  const { status, stderr } = spawnSync(process.execPath, ['--import', 'tsx', 'app/_server/serveClinic.ts'], { env, encoding: 'utf8' })
  return { status, stderr }
}

test('the start for a clinic reads the whole file first: a damaged page in the middle of it is refused, and a command that meets it says what to do', async () => {
  const db = new Database(path)
  const page = db.prepare<[], number>("SELECT rootpage FROM sqlite_master WHERE name = 'result_patient'").pluck().get() ?? 0
  db.close()
  flipBytes(path, page)
  const before = sha256()
  const { status, stderr } = serve()
  expect(status).toBe(1)
  expect(stderr).toMatch(/^Not started: .*damaged.*restore the last backup/)
  const { status: rechecked, out } = await lowmark(url, ['recheck'])
  expect(rechecked).toBe(1)
  expect(out).toMatch(/The database (is damaged|cannot be read to the end)/)
  expect(sha256()).toBe(before)
})

/** A store at work, its files as they lie after it was killed: the last acknowledgements stand in the write-ahead log alone. */
async function killedAtWork(): Promise<readonly string[]> {
  const store = await openStore(url)
  const lines: string[] = []
  await workOnce(store, 'w', 0, await findingKey(store), (line) => lines.push(line))
  for (const part of ['', '-wal', '-shm']) copyFileSync(`${path}${part}`, `${path}${part}.kept`)
  await store.close()
  for (const part of ['', '-wal', '-shm']) copyFileSync(`${path}${part}.kept`, `${path}${part}`)
  return lines
}

test.each([
  ['missing', () => rmSync(`${path}-wal`)],
  ['cut short', () => truncateSync(`${path}-wal`, 5_000)],
  ['empty', () => truncateSync(`${path}-wal`, 0)],
])('a write-ahead log that is %s is refused while its index tells of it; put back, nothing is lost', async (_, take) => {
  const acknowledged = acknowledgedIn(await killedAtWork())
  take()
  const { status, err } = await lowmark(url, ['log', 'verify'])
  expect([status, err]).toEqual([1, expect.stringContaining('the write-ahead log (-wal) is missing or cut short')])
  copyFileSync(`${path}-wal.kept`, `${path}-wal`)
  expect(await lawHolds(url, acknowledged)).toEqual([])
})

test('where the index is gone with the log, only the head of the log kept elsewhere tells', async () => {
  const acknowledged = acknowledgedIn(await killedAtWork())
  for (const part of ['-wal', '-shm']) rmSync(`${path}${part}`)
  expect(await lowmark(url, ['log', 'verify'])).toMatchObject({ status: 0 })
  const head = JSON.parse((await lowmark(url, ['log', 'head', '--json'])).out) as { sequence: number }
  expect(head.sequence).toBeLessThan(acknowledged.head?.sequence ?? 0)
  expect((await lawHolds(url, acknowledged)).join('\n')).toContain('of the log is not the one that was told')
})

test('a bit that changed in a value goes unseen by SQLite, and not by the digests', async () => {
  const bytes = readFileSync(path)
  const at = bytes.indexOf('patient_id,birth_date')
  const quoted = at === -1 ? bytes.indexOf('"patient_id"') : at
  expect(quoted).toBeGreaterThan(0)
  bytes[quoted + 3] = (bytes[quoted + 3] ?? 0) ^ 1
  writeFileSync(path, bytes)
  const db = new Database(path, { readonly: true })
  expect(db.pragma('integrity_check', { simple: true })).toBe('ok')
  db.close()
  const { status, out } = await lowmark(url, ['recheck'])
  expect([status, out]).toEqual([1, expect.stringMatching(/The bytes kept of file \d+ are not those that came in/)])
})

const readOnly = canMake('a disk that may only be read', 'mount')
test.skipIf(readOnly.isImpossible)(readOnly.titled('a database on a disk that may only be read is refused with what to do'), async () => {
  const disk = smallDisk(4 * 1024 * 1024)
  try {
    copyFileSync(path, `${disk.folder}/lowmark.db`)
    chmodSync(`${disk.folder}/lowmark.db`, 0o600)
    disk.onlyRead()
    const { status, err } = await lowmark(`file:${disk.folder}/lowmark.db`, ['list'])
    expect([status, err]).toEqual([1, expect.stringMatching(/^Nothing was done: .*(Choose a place you may write to|may write to, and start again)/)])
    expect(existsSync(`${disk.folder}/lowmark.db-wal`)).toBe(false)
  } finally {
    disk.remove()
  }
})

// Root may read everything; so the program is started as somebody else, who has to be able to read this project.
const NOBODY = 65_534
const isRoot = process.getuid?.() === 0
const canBeSomebodyElse = !isRoot || spawnSync(process.execPath, ['-e', "require('better-sqlite3')"], { uid: NOBODY, gid: NOBODY }).status === 0
test.skipIf(!canBeSomebodyElse)(
  `a file this user may not read is refused with what to do${canBeSomebodyElse ? '' : ' (not tested: no other user can read this project)'}`,
  async () => {
    if (!isRoot) chmodSync(path, 0)
    chmodSync(own.folder, 0o755)
    const { status, err } = await lowmark(url, ['list'], isRoot ? NOBODY : undefined)
    expect([status, err]).toEqual([1, expect.stringMatching(/^Nothing was done: .*(may write to|has to own)/)])
  },
)
