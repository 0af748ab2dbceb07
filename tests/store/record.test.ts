import { existsSync } from 'node:fs'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store, StoreBusy } from '../../lib/store/index.ts'
import { freshStore } from './freshStore.ts'
import { keepWriting } from './keepWriting.ts'
import { fromOutside } from './outside.ts'
import { addPatient, CALL, newResult } from './samples.ts'
import { countOf } from './tables.ts'
import { TEST_SERVER } from './testServer.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const OUT = { action: 'sign-out' } as const

test('a change and its log rows are there together, with who, when and what', async () => {
  await fresh.store.record(CALL, (tx) => {
    tx.setSetting('a', 'b')
    return { value: null, events: [OUT, { action: 'patient-opened', patientId: 'P1' }] }
  })
  expect(fresh.store.reader.setting('a')).toBe('b')
  const { rows, total } = fresh.store.reader.trailPage({ actor: null, limit: 10, offset: 0 })
  expect(total).toBe(2)
  expect(rows[0]).toMatchObject({
    sequence: 2,
    at: CALL.now,
    actor: 'tester',
    role: 'console',
    patientId: 'P1',
    event: { action: 'patient-opened', patientId: 'P1' },
  })
  expect(fresh.store.reader.verifyTrail()).toMatchObject({ rows: 2, firstBad: null })
})

test('a change that throws leaves nothing, and the next one works', async () => {
  const failing = fresh.store.record(CALL, (tx) => {
    tx.setSetting('a', 'b')
    throw new Error('no')
  })
  await expect(failing).rejects.toThrow('no')
  expect(fresh.store.reader.setting('a')).toBe(null)
  expect(fresh.store.reader.trailHead().sequence).toBe(0)
  await fresh.store.record(CALL, (tx) => ({ value: tx.setSetting('a', 'c'), events: [OUT] }))
  expect(fresh.store.reader.setting('a')).toBe('c')
})

test('a change without a log row is refused and undone', async () => {
  const silent = fresh.store.record(CALL, (tx) => ({ value: tx.setSetting('a', 'b'), events: [] }))
  await expect(silent).rejects.toThrow(/without a log row/)
  expect(fresh.store.reader.setting('a')).toBe(null)
})

test('waiting for another program leaves the event loop free, and ends with a clear error', async () => {
  const impatient = await openStore(fresh.url, { patienceMs: 300 })
  const letGo = keepWriting(fresh.url)
  let ticks = 0
  const ticking = setInterval(() => {
    ticks += 1
  }, 5)
  const waiting = impatient.record(CALL, (tx) => ({ value: tx.setSetting('a', 'b'), events: [OUT] }))
  await expect(waiting).rejects.toThrow(StoreBusy)
  clearInterval(ticking)
  expect(ticks).toBeGreaterThan(20)
  letGo()
  await impatient.record(CALL, (tx) => ({ value: tx.setSetting('a', 'c'), events: [OUT] }))
  expect(fresh.store.reader.setting('a')).toBe('c')
  await impatient.close()
})

test.runIf(TEST_SERVER === null)('after closing, the file alone is the whole database', async () => {
  await fresh.store.record(CALL, (tx) => ({ value: tx.setSetting('a', 'b'), events: [OUT] }))
  await fresh.store.close()
  const path = fresh.url.slice('file:'.length)
  expect(existsSync(`${path}-wal`)).toBe(false)
  const alone = fromOutside(fresh.url, { reading: true })
  expect(alone.value('SELECT value FROM setting WHERE key = ?', 'a')).toBe('b')
  alone.close()
})

// A server is told of each row by itself, and answers: a tenth of the rows in the time of a file's.
const MANY = TEST_SERVER === null ? 100_000 : 10_000

test(`${MANY} results are stored within seconds`, async () => {
  const began = performance.now()
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    const one = newResult('P1', fileId, '2026-01-01')
    for (let n = 0; n < MANY; n++) tx.insertResultVersion({ ...one, identity: `i${n}` }, true)
    return { value: null, events: [OUT] }
  })
  const seconds = (performance.now() - began) / 1000
  expect(countOf(fresh.url, 'result')).toBe(MANY)
  // About 2 seconds on two cores; the bound leaves room for a busy machine and still tells a row-by-row commit.
  expect(seconds).toBeLessThan(10)
  process.stdout.write(`${MANY} results in ${seconds.toFixed(1)} s\n`)
})
