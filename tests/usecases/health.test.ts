import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { type Check, type HealthState, judge } from '../../lib/usecases/health/checks.ts'
import type { HealthFacts } from '../../lib/usecases/health/facts.ts'
import { healthOf, readHealth } from '../../lib/usecases/index.ts'
import { json, lowmark } from '../cli/terminal.ts'
import { folderOf, freshStore } from '../store/freshStore.ts'
import { refuseRows } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { REFUSED_CODE } from '../store/refusals.ts'
import { TEST_SERVER } from '../store/testServer.ts'
import { callOf, granted, logged } from './accounts/persons.ts'
import { csv, patientRow, take } from './clinic.ts'

const NOW = '2026-11-25T10:00:00.000Z'
const MINUTE = 60_000
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR
const GIB = 2 ** 30
const ago = (ms: number): string => new Date(Date.parse(NOW) - ms).toISOString()

/** Everything as it should be. */
const SOUND: HealthFacts = {
  now: NOW,
  notWritten: null,
  beganAt: ago(400 * DAY),
  schema: '20261126070000_patients_added',
  last: {
    backup: { at: ago(8 * HOUR), bytes: 5000, encrypted: true },
    failed: null,
    verified: { at: ago(DAY), firstBad: null },
    sent: { at: ago(HOUR) },
    notSent: null,
  },
  arrivals: [{ source: 'North', lastAt: ago(HOUR), days: 40 }],
  disk: { free: 100 * GIB, database: GIB },
  onServer: false,
}

function last(change: Partial<HealthFacts['last']>): Partial<HealthFacts> {
  return { last: { ...SOUND.last, ...change } }
}

const backupAt = (ms: number) => last({ backup: { at: ago(ms), bytes: 5000, encrypted: true } })

function checkOf(what: Check['what'], change: Partial<HealthFacts>): Check | undefined {
  return judge({ ...SOUND, ...change }).checks.find((check) => check.what === what)
}

const CASES: readonly (readonly [Check['what'], string, Partial<HealthFacts>, HealthState, string])[] = [
  ['database', 'takes a row', {}, 'ok', 'was written'],
  ['database', 'takes none', { notWritten: 'SQLITE_FULL' }, 'fail', 'cannot be written (SQLITE_FULL)'],
  ['backup', '26 hours old', backupAt(26 * HOUR), 'ok', '26 hours ago'],
  ['backup', 'a minute older', backupAt(26 * HOUR + MINUTE), 'warn', '26 hours ago'],
  ['backup', '50 hours old', backupAt(50 * HOUR), 'warn', '50 hours ago'],
  ['backup', 'a minute older than that', backupAt(50 * HOUR + MINUTE), 'fail', 'ago'],
  ['backup', 'none, on the first day', { ...last({ backup: null }), beganAt: ago(HOUR) }, 'warn', 'No backup has been made yet'],
  ['backup', 'none, on the third day', { ...last({ backup: null }), beganAt: ago(51 * HOUR) }, 'fail', 'No backup has been made yet'],
  ['backup', 'failed since', last({ failed: { at: ago(HOUR), reason: 'disk-full' } }), 'warn', 'The last try failed (disk-full)'],
  ['backup', 'failed before', last({ failed: { at: ago(9 * HOUR), reason: 'disk-full' } }), 'ok', 'made and verified'],
  ['intake', 'four quiet days', { arrivals: [{ source: 'North', lastAt: ago(4 * DAY), days: 5 }] }, 'ok', 'ago'],
  ['intake', 'a minute more', { arrivals: [{ source: 'North', lastAt: ago(4 * DAY + MINUTE), days: 5 }] }, 'warn', 'ago'],
  ['intake', 'of one that sends seldom', { arrivals: [{ source: 'North', lastAt: ago(40 * DAY), days: 4 }] }, 'ok', '40 days ago'],
  ['log', 'never checked', last({ verified: null, backup: null }), 'warn', 'has not been checked yet'],
  ['log', 'checked by a backup alone', last({ verified: null }), 'ok', '8 hours ago'],
  ['log', 'checked 8 days ago', last({ verified: { at: ago(8 * DAY), firstBad: null }, backup: null }), 'ok', '8 days ago'],
  ['log', 'a minute earlier', last({ verified: { at: ago(8 * DAY + MINUTE), firstBad: null }, backup: null }), 'warn', '8 days ago'],
  ['log', 'not whole', last({ verified: { at: ago(HOUR), firstBad: 7 } }), 'fail', 'did not fit from row 7 on'],
  ['log-head', 'never sent', last({ sent: null }), 'warn', 'never sent elsewhere'],
  ['log-head', 'sent 26 hours ago', last({ sent: { at: ago(26 * HOUR) } }), 'ok', '26 hours ago'],
  ['log-head', 'a minute earlier', last({ sent: { at: ago(26 * HOUR + MINUTE) } }), 'warn', 'ago'],
  ['log-head', 'not sent since', last({ notSent: { at: ago(HOUR / 2) } }), 'warn', 'The last try failed, 30 minutes ago'],
  ['log-head', 'never sent, though it was tried', last({ sent: null, notSent: { at: ago(HOUR) } }), 'warn', 'never sent elsewhere'],
  ['disk', 'just enough', { disk: { free: 5 * GIB, database: GIB } }, 'ok', '5.0 GiB'],
  ['disk', 'less than 5 GiB', { disk: { free: 5 * GIB - 1, database: GIB } }, 'warn', '5.0 GiB'],
  ['disk', 'less than two more of the database', { disk: { free: 19 * GIB, database: 10 * GIB } }, 'warn', '19.0 GiB'],
  ['disk', 'nearly none', { disk: { free: GIB / 2 - 1, database: 1 } }, 'fail', '0.5 GiB'],
  ['disk', 'of a host, beside a server', { onServer: true, disk: { free: 6 * GIB, database: 0 } }, 'ok', 'where files arrive'],
  ['backup', 'of a server', { onServer: true }, 'ok', 'not here'],
  ['disk', 'not told', { disk: null }, 'warn', 'could not be told'],
]

describe('what is judged of', () => {
  test.each(CASES)('%s, %s', (what, _, change, state, says) => {
    const check = checkOf(what, change)
    expect(check).toMatchObject({ state, says: expect.stringContaining(says) })
    expect(check?.doThis === null).toBe(state === 'ok')
  })

  test('the worst stands first and is the status of all', () => {
    expect(judge(SOUND).status).toBe('ok')
    const { status, checks } = judge({ ...SOUND, ...last({ sent: null }), notWritten: 'SQLITE_FULL' })
    expect([status, ...checks.slice(0, 3).map(({ what }) => what)]).toEqual(['fail', 'database', 'log-head', 'backup'])
  })
})

describe('of a database', () => {
  let fresh: { store: Store; url: string; dispose: () => Promise<void> }
  beforeEach(async () => {
    fresh = await freshStore()
    await take(fresh.store, [csv('patients.csv', [patientRow({ family_name: 'Canary', given_name: 'Bird' })])])
  })
  afterEach(() => fresh.dispose())

  const found = async (what: Check['what']) => (await healthOf(fresh.store, NOW)).checks.find((check) => check.what === what)

  test('a row is written and written over, without an entry', async () => {
    const before = fresh.store.reader.trailHead()
    expect(await found('database')).toMatchObject({ state: 'ok' })
    expect(fresh.store.reader.setting('written-at')).toBe(NOW)
    expect(fresh.store.reader.trailHead()).toEqual(before)
  })

  test('a database that takes no row is told, by its reason and without a path', async () => {
    const outside = fromOutside(fresh.url)
    refuseRows(outside, { table: 'setting', says: 'no room at /a/place' })
    outside.close()
    const health = await healthOf(fresh.store, NOW)
    expect(health.status).toBe('fail')
    expect(health.checks[0]).toMatchObject({ what: 'database', says: `The database cannot be written (${REFUSED_CODE}).` })
    expect(JSON.stringify(health)).not.toContain('/a/place')
  })

  test('what others keep is found under its key, and nonsense there is as if it were not there', async () => {
    const keep = (key: string, value: unknown) =>
      fresh.store.record(callOf(fresh.store), (tx) => ({ value: tx.setSetting(key, JSON.stringify(value)), events: [{ action: 'sign-out' }] }))
    await keep('log-verified', { at: NOW, firstBad: 3, rows: 12 })
    await keep('log-head-sent', { sent: { at: NOW, sequence: 4 }, failed: null })
    expect(await found('log')).toMatchObject({ state: 'fail', at: NOW })
    expect(await found('log-head')).toMatchObject({ state: 'ok', at: NOW })
    await keep('log-head-sent', { sent: { at: 'yesterday' }, failed: null })
    expect(await found('log-head')).toMatchObject({ state: 'warn', at: null })
  })

  // A database on a server is backed up by the server, which tells nobody here.
  test.runIf(TEST_SERVER === null)('a backup is found, and its check of the log; nothing of a patient is told', async () => {
    expect(await lowmark(fresh.url, 'health')).toMatchObject({ status: 3, out: expect.stringMatching(/^state +what/) })
    expect((await lowmark(fresh.url, 'backup', join(folderOf(fresh.url), 'copy'))).status).toBe(0)
    const ran = await lowmark(fresh.url, 'health', '--json')
    const { checks } = json<{ checks: Check[] }>(ran)
    const states = Object.fromEntries(checks.map(({ what, state }) => [what, state]))
    expect(states).toMatchObject({ database: 'ok', backup: 'ok', log: 'ok', intake: 'ok', schema: 'ok' })
    expect(ran.out).not.toMatch(/Canary|Bird|P1|1950/)
  })

  test('a person who may read it leaves no entry; one who may not, does', async () => {
    const before = logged(fresh.store).length
    granted(await readHealth(callOf(fresh.store, 'administrator')))
    expect(logged(fresh.store)).toHaveLength(before)
    expect(await readHealth(callOf(fresh.store, 'physician'))).toMatchObject({ ok: false, kind: 'not-allowed' })
    expect(logged(fresh.store).at(-1)).toMatchObject({ action: 'access-refused' })
  })
})
