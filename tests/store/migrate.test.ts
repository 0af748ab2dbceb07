import { cpSync, mkdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import Database from 'better-sqlite3'
import { expect, test } from 'vitest'
import { DEFAULT_PLAN, valuesOf } from '../../lib/plan/index.ts'
import { NotOpened, openStore } from '../../lib/store/index.ts'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'
import { excludeResult, listDocument } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
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

test('a database of the first version, with patients in it, is brought to this one and loses nothing but what is worked out', async () => {
  const url = freshUrl()
  const first = join(dirname(pathOf(url)), 'first')
  cpSync('prisma/migrations/20261125100000_first', join(first, '20261125100000_first'), { recursive: true })
  await (await openStore(url, { migrations: first })).close()
  const old = new Database(pathOf(url))
  old.exec(`INSERT INTO intake_file_bytes VALUES ('${'a'.repeat(64)}', x'00');
    INSERT INTO intake_file (id, name, sha256, byte_count, received_at, received_by) VALUES (1, 'a.csv', '${'a'.repeat(64)}', 1, '2026-11-25T10:00:00.000Z', 'x');
    INSERT INTO patient (id, birth_date, sex, status, file_id, line) VALUES ('P1', '1960', 'female', 'followed', 1, 2);
    INSERT INTO result (id, patient_id, identity, version, current, code, analyte, collected_at, collected_on, collected_order, status, kind, kept_low, kept_high,
      printed_low, printed_high, printed_unit, value_text, unit_text, file_id, line)
      VALUES (7, 'P1', 'i', 1, 1, '17861-6', 'calcium', '2026-11-24', '2026-11-24', 0, 'final', 'number', '3.2', '3.2', '3.2', '3.2', 'mmol/L', '3.2', 'mmol/L', 1, 2);
    INSERT INTO standing (patient_id, history_revision, followed, rules_version, plan_version, evaluated_on, window_rank, state_rank, organ_rank, excess, phase, window, answer)
      VALUES ('P1', 0, 1, 'r', 'p', '2026-11-25', 4, 3, 1, 0, 'unrecorded', 'on-schedule', '{}');
    INSERT INTO standing_finding VALUES ('P1', 'pd-serum')`)
  old.close()
  const store = await openStore(url)
  const history = store.reader.loadHistory('P1')?.history
  expect([history?.results.map(({ id }) => id), history?.decisions, store.reader.standings()]).toEqual([[7], [], []])
  const call = callOf(store, 'physician')
  expect(granted(await listDocument(call, null)).patients).toMatchObject([{ patientId: 'P1', window: 'same-day' }])
  granted(await excludeResult(call, { patientId: 'P1', resultId: 7, reason: 'mixed up' }))
  expect(granted(await listDocument(call, null)).patients).toMatchObject([{ patientId: 'P1', window: 'on-schedule' }])
  await store.close()
})

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

test.each(['mysql://x', 'file:', ':memory:', 'file::memory:', 'lowmark.db'])('the address %s is refused with what to write', async (url) => {
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
