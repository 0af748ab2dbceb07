import { cpSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store } from '../../lib/store/index.ts'
import { readMigrations } from '../../lib/store/migrate/migrations.ts'
import { folderOf, freshUrl } from './freshStore.ts'
import { withoutGuards } from './guards.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { CALL } from './samples.ts'
import { TEST_SERVER } from './testServer.ts'

interface EarlierRow {
  readonly sequence: number
  readonly previousHash: string
  readonly hash: string
  readonly [field: string]: string | number | null
}

/** A log as an earlier version wrote it, with its hashes, before entries kept a purpose of use: rows of 2019, 2020 and 2026. */
const EARLIER = JSON.parse(readFileSync('tests/store/earlierLog.json', 'utf8')) as readonly EarlierRow[]
const column = (field: string): string => field.replaceAll(/[A-Z]/g, (letter) => `_${letter.toLowerCase()}`)

/** The tables as they were before entries kept a purpose of use; on the server there is no version before the first. */
function earlierTables(url: string): { readonly migrations?: string } {
  if (TEST_SERVER !== null) return {}
  const before = join(folderOf(url), 'before')
  for (const { name } of readMigrations('prisma/migrations').filter((one) => one.name < '20261127'))
    cpSync(join('prisma/migrations', name), join(before, name), { recursive: true })
  return { migrations: before }
}

let url: string
let store: Store
let outside: Outside
beforeEach(async () => {
  url = freshUrl()
  await (await openStore(url, earlierTables(url))).close()
  outside = fromOutside(url)
  for (const row of EARLIER) {
    const fields = Object.keys(row)
    const marks = fields.map(() => '?').join(', ')
    outside.run(`INSERT INTO trail (${fields.map(column).join(', ')}) VALUES (${marks})`, ...Object.values(row))
  }
  store = await openStore(url)
})
afterEach(async () => {
  outside.close()
  await store.close()
})

const AT = CALL.now
function rangeTo(last: number, change: Readonly<Record<string, string | number>> = {}) {
  const { previousHash: previous = '' } = EARLIER[0] ?? {}
  const { hash = '' } = EARLIER[last - 1] ?? {}
  const range = { id: 1, first: 1, last, count: last, previous, hash, file: 'f'.repeat(64), by: 'Sam', at: AT, ...change }
  outside.run('INSERT INTO log_range VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)', ...Object.values(range))
}

const retire = (last: number): Promise<void> => {
  const range = { first: 1, last, previousHash: '0'.repeat(64), lastHash: EARLIER[last - 1]?.hash ?? '', fileSha256: 'f'.repeat(64) }
  return store.record(CALL, (tx) => {
    tx.retireRange({ ...range, retiredBy: 'Sam', retiredAt: AT })
    return { value: undefined, events: [{ action: 'log-retired', ...range }] }
  })
}

test('a log written before this version verifies, unchanged, and goes on', async () => {
  expect(store.reader.verifyTrail()).toEqual({ rows: 8, firstBad: null, head: { sequence: 8, hash: EARLIER[7]?.hash } })
  await store.record(CALL, (tx) => ({ value: tx.setSetting('a', 'b'), events: [{ action: 'patient-opened', patientId: 'P1' }] }))
  expect(store.reader.verifyTrail()).toMatchObject({ rows: 9, firstBad: null })
  const rows = store.reader.trailRows({ after: 0, upTo: 9, limit: 9 })
  expect(rows.map(({ purpose }) => purpose)).toEqual([...EARLIER.map(() => null), 'TREAT'])
})

test('every database has an identity of its own, which nothing changes', async () => {
  const other = await openStore(freshUrl())
  expect(store.reader.databaseId()).toMatch(/^[0-9a-f]{32}$/)
  expect(other.reader.databaseId()).not.toBe(store.reader.databaseId())
  await other.close()
  for (const sql of [
    "UPDATE database_identity SET code = '0'",
    'DELETE FROM database_identity',
    `INSERT OR REPLACE INTO database_identity VALUES (1, '${'0'.repeat(32)}')`,
  ])
    expect(() => outside.exec(sql)).toThrow('keeps its identity')
})

test('rows that a range covers can go, and the chain goes on from them; no other row can', async () => {
  expect(() => outside.exec('DELETE FROM trail WHERE sequence = 1')).toThrow('append-only')
  await retire(7)
  expect(store.reader.verifyTrail()).toMatchObject({ rows: 2, firstBad: null })
  expect(store.reader.logRanges()).toMatchObject([{ id: 1, first: 1, last: 7, lastHash: EARLIER[6]?.hash }])
  expect([1, 7, 8, 99].map(store.reader.trailHashAt)).toEqual([undefined, EARLIER[6]?.hash, EARLIER[7]?.hash, null])
  expect(() => outside.exec('DELETE FROM trail WHERE sequence = 8')).toThrow('append-only')
  expect(() => outside.exec("UPDATE trail SET actor = 'x' WHERE sequence = 8")).toThrow('append-only')
  expect(() => outside.exec('UPDATE log_range SET last_sequence = 8')).toThrow('never changed')
  expect(() => outside.exec('DELETE FROM log_range')).toThrow('never removed')
})

test('a database refuses a range that is not the oldest, not its own, too young, or all of the log', () => {
  expect(() => rangeTo(7, { id: 2 })).toThrow('follows the last one')
  expect(() => rangeTo(7, { first: 2, count: 6, previous: EARLIER[1]?.previousHash ?? '' })).toThrow('follows the last one')
  expect(() => rangeTo(7, { hash: 'e'.repeat(64) })).toThrow('hashes it has in the log')
  expect(() => rangeTo(7, { previous: 'e'.repeat(64) })).toThrow('hashes it has in the log')
  expect(() => rangeTo(8, { at: '2040-01-01T00:00:00.000Z' })).toThrow('never retired')
  expect(() => rangeTo(7, { at: '2026-07-02T09:11:59.999Z' })).toThrow('six years')
  expect(() => rangeTo(7, { count: 6 })).toThrow(refusedBy(['check']))
  rangeTo(7, { at: '2026-07-02T09:12:00.001Z' })
  expect(outside.value('SELECT count(*) FROM log_range')).toBe(1)
})

test('a range that the log itself does not tell of is found: somebody made room by hand', () => {
  rangeTo(7)
  outside.exec('DELETE FROM trail WHERE sequence <= 7')
  expect(store.reader.verifyTrail().firstBad).toBe(1)
})

test('a range whose hash was changed is found at its first number', async () => {
  await retire(7)
  withoutGuards(outside, () => outside.exec(`UPDATE log_range SET last_hash = '${'e'.repeat(64)}'`))
  expect(store.reader.verifyTrail().firstBad).toBe(1)
})
