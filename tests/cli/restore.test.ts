import { existsSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Database from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { migrationsDirectory, readMigrations } from '../../lib/store/migrate/migrations.ts'
import { csv, resultRow, take } from '../usecases/clinic.ts'
import { backedUp, flipBit, keysOf, lookedThrough, namesIn, PATIENTS, type SmallClinic, smallClinic } from './backups.ts'
import { json, npmRunLowmark } from './terminal.ts'

let clinic: SmallClinic
beforeEach(async () => {
  clinic = await smallClinic()
})
afterEach(() => clinic.dispose())

interface RestoreSaid {
  readonly head: { readonly sequence: number; readonly hash: string }
  readonly sessionsEnded: number
  readonly codesEnded: number
  readonly recheck: { readonly patients: number; readonly differences: readonly unknown[] }
  readonly logRows: number
}

const database = () => clinic.elsewhereUrl.slice('file:'.length)

/** Nothing was restored: no database, and nothing unfinished. */
function expectNothing(): void {
  expect(namesIn(clinic.at('elsewhere'))).toEqual([])
}

test('on a machine with nothing on it, by the command line as a person types it', async () => {
  const { recipients, identity } = await keysOf(clinic)
  const { path, logHead } = await backedUp(clinic, clinic.at('backups'), '--recipient-file', recipients)
  await take(clinic.store, [csv('later.csv', [resultRow({ patient_id: 'P1', accession: 'later', collected_at: '2026-07-01' })])])
  const began = performance.now()
  const ran = await npmRunLowmark(clinic.elsewhereUrl, 'restore', path, '--identity-file', identity, '--json')
  expect(ran.status, ran.err).toBe(0)
  process.stderr.write(`restored in ${Math.round(performance.now() - began)} ms, most of it the start of the program\n`)
  const said = json<RestoreSaid>(ran)
  expect(said).toMatchObject({ head: logHead, sessionsEnded: 1, codesEnded: 1, recheck: { patients: PATIENTS.length, differences: [] } })
  expect(namesIn(clinic.at('elsewhere'))).toEqual(['lowmark.db'])
  expect((statSync(database()).mode & 0o777).toString(8)).toBe('600')
  await lookedThrough(clinic.elsewhereUrl, ({ reader }) => {
    // What came after the backup is not in it; what came before is.
    expect(reader.versionsOfPatient('P1')).toHaveLength(1)
    expect(reader.patientIds()).toEqual([...PATIENTS])
  })
}, 240_000)

test('nobody stays signed in, no one-time code opens anything, and the log says what was restored', async () => {
  const { path, logHead, databaseSha256 } = await backedUp(clinic, clinic.at('backups'))
  expect(await clinic.elsewhere('restore', path)).toMatchObject({ status: 0, out: expect.stringContaining('1 sessions and 1 one-time codes ended') })
  await lookedThrough(clinic.elsewhereUrl, ({ reader }) => {
    expect(reader.openSessions('')).toEqual([])
    expect(reader.account('new')?.codeHash).toBe(null)
    const { rows } = reader.trailPage({ actor: null, limit: 4, offset: 0 })
    const restored = rows.find(({ action }) => action === 'restored')
    expect(restored?.event).toEqual({
      action: 'restored',
      sha256: databaseSha256,
      headSequence: logHead.sequence,
      headHash: logHead.hash,
      sessionsEnded: 1,
      codesEnded: 1,
    })
    // Between the head of the backup and this entry there is nothing: the chain goes on from there.
    expect(restored).toMatchObject({ sequence: logHead.sequence + 1, previousHash: logHead.hash })
  })
})

test('what was there is never overwritten, not even by a log of changes that was left', async () => {
  const { path } = await backedUp(clinic, clinic.at('backups'))
  mkdirSync(clinic.at('elsewhere'))
  for (const name of ['lowmark.db', 'lowmark.db-wal']) {
    writeFileSync(clinic.at('elsewhere', name), 'anything')
    expect(await clinic.elsewhere('restore', path)).toMatchObject({
      status: 1,
      err: expect.stringMatching(/There is a database already.*move it away/),
    })
    expect(readFileSync(clinic.at('elsewhere', name), 'utf8')).toBe('anything')
    expect(namesIn(clinic.at('elsewhere'))).toEqual([name])
    rmSync(clinic.at('elsewhere', name))
  }
  expect(await clinic.run('restore', path)).toMatchObject({ status: 1, err: expect.stringContaining('There is a database already') })
  writeFileSync(database(), '')
  expect(await clinic.elsewhere('restore', path)).toMatchObject({ status: 0 })
})

describe('is refused, with nothing left,', () => {
  test.each([
    ['a bit turned over', (path: string) => flipBit(path, -3000)],
    ['its tail cut off', (path: string) => writeFileSync(path, readFileSync(path).subarray(0, -4096))],
    ['another file', (path: string) => writeFileSync(path, 'patient_id,value\n')],
    ['no manifest', (path: string) => rmSync(`${path}.json`)],
  ])('a backup with %s', async (_, spoil) => {
    const { path } = await backedUp(clinic, clinic.at('backups'))
    spoil(path)
    expect(await clinic.elsewhere('restore', path)).toMatchObject({ status: 1, out: '' })
    expectNothing()
  })

  test('an encrypted one without its identity, with another one, or with a bit turned over anywhere', async () => {
    const { recipients, identity } = await keysOf(clinic)
    const other = await keysOf(clinic, 'other')
    const { path } = await backedUp(clinic, clinic.at('backups'), '--recipient-file', recipients)
    rmSync(`${path}.json`)
    expect(await clinic.elsewhere('restore', path)).toMatchObject({ status: 1, err: expect.stringContaining('Give the identity that opens it') })
    expect(await clinic.elsewhere('restore', path, '--identity-file', other.identity)).toMatchObject({
      status: 1,
      err: expect.stringContaining('encrypted for another recipient'),
    })
    const whole = readFileSync(path)
    for (const offset of [30, 100, 250, 70_000, Math.floor(whole.length / 2), -1]) {
      flipBit(path, offset)
      const ran = await clinic.elsewhere('restore', path, '--identity-file', identity)
      expect(ran, `a bit at ${offset}`).toMatchObject({ status: 1, out: '' })
      expectNothing()
      writeFileSync(path, whole)
    }
    for (const length of [whole.length - 1, whole.length - 65_552, 300, 60]) {
      writeFileSync(path, whole.subarray(0, length))
      expect((await clinic.elsewhere('restore', path, '--identity-file', identity)).status, `cut to ${length}`).toBe(1)
      expectNothing()
    }
    writeFileSync(path, whole)
    expect((await clinic.elsewhere('restore', path, '--identity-file', identity)).status).toBe(0)
  })

  test('one a newer version made', async () => {
    const outside = new Database(clinic.url.slice('file:'.length))
    outside.exec(`INSERT INTO "_prisma_migrations" (id, checksum, migration_name) VALUES ('x', 'y', '29990101000000_later')`)
    outside.close()
    const file = clinic.at('newer.db')
    const copy = new Database(clinic.url.slice('file:'.length))
    copy.prepare('VACUUM INTO ?').run(file)
    copy.close()
    expect(await clinic.elsewhere('restore', file, '--without-manifest')).toMatchObject({
      status: 1,
      err: expect.stringMatching(/29990101000000_later.*does not know\. Start the newer version/),
    })
    expectNothing()
  })

  test('a database of another program, and one whose rows point to nothing', async () => {
    const another = clinic.at('another.db')
    new Database(another).exec('CREATE TABLE patient (id TEXT)').close()
    expect(await clinic.elsewhere('restore', another, '--without-manifest')).toMatchObject({
      status: 1,
      err: expect.stringContaining('a database of another program'),
    })
    const broken = new Database(clinic.url.slice('file:'.length))
    broken.pragma('foreign_keys = OFF')
    broken.exec('UPDATE session SET account_id = 999')
    const file = clinic.at('broken.db')
    broken.prepare('VACUUM INTO ?').run(file)
    broken.close()
    expect(await clinic.elsewhere('restore', file, '--without-manifest')).toMatchObject({
      status: 1,
      err: expect.stringContaining('point to nothing'),
    })
    expectNothing()
  })
})

test('a backup of an older version is migrated before it has its name', async () => {
  const migrations = readMigrations(migrationsDirectory('sqlite'))
  const older = clinic.at('older')
  for (const { name, sql } of migrations.slice(0, -1)) {
    mkdirSync(join(older, name), { recursive: true })
    writeFileSync(join(older, name, 'migration.sql'), sql)
  }
  const url = `file:${clinic.at('older.db')}`
  const store = await openStore(url, { migrations: older })
  await store.record(
    { actor: { name: 'a', role: 'console', sessionHash: null, address: null, requestId: 'r' }, now: '2026-11-25T10:00:00.000Z' },
    () => ({
      value: null,
      events: [{ action: 'sign-out' }],
    }),
  )
  await store.close()
  expect(await clinic.run('backup', 'verify', clinic.at('older.db'), '--without-manifest')).toMatchObject({
    status: 0,
    out: expect.stringContaining('its log is checked when it is restored'),
  })
  expect(await clinic.elsewhere('restore', clinic.at('older.db'), '--without-manifest')).toMatchObject({ status: 0 })
  await lookedThrough(clinic.elsewhereUrl, ({ reader }) => expect(reader.schema()).toBe(migrations.at(-1)?.name))
  expect(existsSync(clinic.at('older.db'))).toBe(true)
})
