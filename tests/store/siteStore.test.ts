import { randomUUID } from 'node:crypto'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { openStore, type Store } from '../../lib/store/index.ts'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'
import { type MigratedServer, migratedServer, SERVER } from './migratedServer.ts'
import { addPatient, CALL, newResult } from './samples.ts'

describe.skipIf(SERVER === undefined)('a host of a site', () => {
  let server: MigratedServer
  let north: Store
  let south: Store
  beforeAll(async () => {
    server = await migratedServer()
    // As the program keeps them, which applied nothing here.
    await server.client.query(`CREATE TABLE "_prisma_migrations" (id text PRIMARY KEY, checksum text NOT NULL, finished_at text,
      migration_name text NOT NULL, logs text, rolled_back_at text, started_at text NOT NULL, applied_steps_count bigint NOT NULL DEFAULT 0)`)
    for (const { name, checksum } of readMigrations('prisma/postgresql/migrations')) {
      await server.client.query('INSERT INTO "_prisma_migrations" (id, checksum, migration_name, started_at) VALUES ($1, $2, $3, $4)', [
        randomUUID(),
        checksum,
        name,
        CALL.now,
      ])
    }
    const roles = [await server.makeRole(), await server.makeRole()]
    await server.client.query("SELECT admit_site_role($1, 'North'), admit_site_role($2, 'South')", roles)
    const stores = await Promise.all(roles.map((role) => openStore(server.addressFor(role))))
    ;[north, south] = stores as [Store, Store]
  })
  afterAll(async () => {
    await north.close()
    await south.close()
    await server.dispose()
  })

  const fill = (store: Store, patientId: string): Promise<unknown> =>
    store.record(CALL, (tx) => {
      const fileId = addPatient(tx, patientId)
      tx.insertResultVersion(newResult(patientId, fileId, '2026-01-01'), true)
      tx.bumpRevision(patientId)
      return { value: null, events: [{ action: 'patient-opened', patientId }] }
    })

  test('runs the program on its own patients, beside the other one, with one log that holds for both', async () => {
    await fill(north, 'N1')
    await fill(south, 'S1')
    await fill(north, 'N2')
    const seen = (store: Store): unknown =>
      ['N1', 'N2', 'S1'].map((id) => [store.reader.patient(id) !== null, store.reader.versionsOfPatient(id).length])
    expect(seen(north)).toEqual([
      [true, 1],
      [true, 1],
      [false, 0],
    ])
    expect(seen(south)).toEqual([
      [false, 0],
      [false, 0],
      [true, 1],
    ])
    for (const store of [north, south]) expect(store.reader.verifyTrail()).toMatchObject({ rows: 3, firstBad: null, head: { sequence: 3 } })
  })

  test('adds nobody who is there already, and says so', async () => {
    await expect(fill(south, 'N1')).rejects.toThrow(/unique/)
    expect(south.reader.verifyTrail()).toMatchObject({ rows: 3, firstBad: null })
  })
})
