import { cpSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { DEFAULT_PLAN, valuesOf } from '../../lib/plan/index.ts'
import { NotOpened, openStore } from '../../lib/store/index.ts'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'
import { freshUrl } from './freshStore.ts'
import { addPatient, CALL, TODAY } from './samples.ts'

function pathOf(url: string): string {
  return url.slice('file:'.length)
}

test('a missing database is made in a missing directory, for its owner alone', async () => {
  const path = join(dirname(pathOf(freshUrl())), 'deep/er/lowmark.db')
  const store = await openStore(`file:${path}`)
  expect(store.reader.isEmpty()).toBe(true)
  expect(statSync(path).mode & 0o777).toBe(0o600)
  expect(statSync(`${path}-wal`).mode & 0o777).toBe(0o600)
  expect(statSync(dirname(path)).mode & 0o777).toBe(0o700)
  await store.close()
})

test('several starts at once migrate once', async () => {
  const url = freshUrl()
  const stores = await Promise.all([1, 2, 3, 4].map(() => openStore(url)))
  const db = new Database(pathOf(url), { readonly: true })
  expect(db.prepare('SELECT count(*) AS n FROM _prisma_migrations').get()).toEqual({ n: readMigrations('prisma/migrations').length })
  db.close()
  await Promise.all(stores.map((store) => store.close()))
})

function copiedMigrations(url: string): string {
  const directory = join(dirname(pathOf(url)), 'migrations')
  cpSync('prisma/migrations', directory, { recursive: true })
  return directory
}

test('a migration changed after it was applied refuses the start', async () => {
  const url = freshUrl()
  await (await openStore(url)).close()
  const migrations = copiedMigrations(url)
  const file = join(migrations, '20261125100000_first/migration.sql')
  writeFileSync(file, `${readFileSync(file, 'utf8')}\n-- changed\n`)
  await expect(openStore(url, { migrations })).rejects.toThrow(/was changed after it was applied/)
})

test('a database of a newer version refuses the start', async () => {
  const url = freshUrl()
  const migrations = copiedMigrations(url)
  mkdirSync(join(migrations, '20990101000000_later'))
  writeFileSync(join(migrations, '20990101000000_later/migration.sql'), 'CREATE TABLE later (x TEXT) STRICT;')
  await (await openStore(url, { migrations })).close()
  await expect(openStore(url)).rejects.toThrow(/does not know/)
})

test('a migration that fails leaves nothing behind', async () => {
  const url = freshUrl()
  const migrations = copiedMigrations(url)
  mkdirSync(join(migrations, '20990101000000_later'))
  writeFileSync(join(migrations, '20990101000000_later/migration.sql'), 'CREATE TABLE later (x TEXT) STRICT; CREATE TABLE later (x TEXT) STRICT;')
  await expect(openStore(url, { migrations })).rejects.toThrow(/already exists/)
  const db = new Database(pathOf(url), { readonly: true })
  expect(db.prepare('SELECT count(*) AS n FROM sqlite_master').get()).toEqual({ n: 0 })
  db.close()
})

test.each(['postgres://x', 'file:', ':memory:', 'file::memory:', 'lowmark.db'])('the address %s is refused with what to write', async (url) => {
  await expect(openStore(url)).rejects.toThrow(NotOpened)
  await expect(openStore(url)).rejects.toThrow(/file:\.\/var\/lowmark\.db/)
})

test('a database of before the versions of the plan keeps what it has, and can take one', async () => {
  const url = freshUrl()
  const migrations = copiedMigrations(url)
  rmSync(join(migrations, '20261125180000_plan_versions'), { recursive: true })
  const older = await openStore(url, { migrations })
  await older.record(CALL, (tx) => ({ value: addPatient(tx, 'P1'), events: [{ action: 'patient-opened', patientId: 'P1' }] }))
  await older.close()
  const store = await openStore(url)
  expect(store.reader.patientIds()).toEqual(['P1'])
  expect(store.reader.verifyTrail()).toMatchObject({ rows: 1, firstBad: null })
  expect([store.reader.planVersions(), store.reader.publishedPlans()]).toEqual([[], []])
  const proposal = { basedOn: 1, values: valuesOf(DEFAULT_PLAN), note: 'a test', proposedBy: 'tester', proposedAt: CALL.now, from: TODAY }
  const version = await store.record(CALL, (tx) => ({ value: tx.insertPlanVersion(proposal), events: [{ action: 'sign-out' }] }))
  expect(store.reader.planVersion(version)).toMatchObject({ version: 2, ...proposal, state: 'proposed' })
  await store.close()
})
