import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { activate, addAccount, listDocument, openPatient, proposePlan, publishPlan, readSession, signIn } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { addPerson, callOf, granted, later, PASSWORD } from '../usecases/accounts/persons.ts'
import { csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { takeDamaged } from '../usecases/decisions/damaged.ts'
import { bundled } from './bundled.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { acknowledgedIn, lawHolds, NOTHING } from './law.ts'
import { canMake } from './needs.ts'
import { begin, startWaiting, untilReady } from './traced.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

const HOUR = 3600
const DAY = 24 * HOUR
const YEAR = 365 * DAY

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
})
afterEach(() => dispose())

const at = (seconds: number) => ({ now: new Date(later(seconds)), requestId: 'r', address: null })
const enter = (password = PASSWORD, seconds = 0) => signIn(store, { name: 'nurse', password }, at(seconds))
const session = async (id: string, seconds: number) => (await readSession(store, id, at(seconds)))?.name ?? null

describe('a clock set back', () => {
  test.each([HOUR, DAY, YEAR])('by %s seconds ends a session instead of letting it live so much longer, for good', async (back) => {
    await addPerson(store, 'nurse', 'navigator')
    const { sessionId } = granted(await enter())
    expect(await session(sessionId, -back)).toBe(null)
    expect(await session(sessionId, 0)).toBe(null)
    expect(store.reader.openSessions('')).toEqual([])
  })

  test('by a little, as clocks are set right, ends nothing', async () => {
    await addPerson(store, 'nurse', 'navigator')
    const { sessionId } = granted(await enter())
    expect(await session(sessionId, -60)).toBe('nurse')
  })

  test('does not bring back a session that stood idle', async () => {
    await addPerson(store, 'nurse', 'navigator')
    const { sessionId } = granted(await enter())
    expect(await session(sessionId, 16 * 60)).toBe(null)
    expect(await session(sessionId, 5 * 60)).toBe(null)
  })

  test.each([HOUR, DAY, YEAR])('by %s seconds does not make a wait after failures longer than any there is', async (back) => {
    await addPerson(store, 'nurse', 'navigator')
    for (let n = 0; n < 5; n++) await enter('a wrong password of a nurse')
    expect((await enter()).ok).toBe(false)
    expect((await enter(PASSWORD, -back)).ok).toBe(true)
  })

  test('lets nobody guess without end: each further failure earns its wait by the clock there is', async () => {
    await addPerson(store, 'nurse', 'navigator')
    for (let n = 0; n < 5; n++) await enter('a wrong password of a nurse')
    await enter('a wrong password of a nurse', -DAY)
    expect((await enter(PASSWORD, -DAY)).ok).toBe(false)
    expect((await enter(PASSWORD, -DAY + 61)).ok).toBe(true)
  })

  test.each([DAY, YEAR])('by %s seconds does not make a one-time code good for longer', async (back) => {
    const { code } = granted(await addAccount(callOf(store), { name: 'nurse', role: 'navigator' }))
    const tried = await activate(callOf(store, 'none', later(-back)), { name: 'nurse', code, password: PASSWORD })
    expect(tried).toMatchObject({ ok: false, kind: 'not-allowed' })
  })

  test('between two publications of the plan leaves the later one in force', async () => {
    const publish = async (version: number, days: number, seconds: number) => {
      const [physician, administrator] = [callOf(store, 'physician', later(seconds)), callOf(store, 'administrator', later(seconds))]
      const wish = { changes: { 'treatment.0.every': { days } }, from: '2026-11-25', basedOn: version - 1, note: 'a test' }
      granted(await proposePlan(physician, wish))
      granted(await publishPlan(administrator, { version, from: '2026-11-25' }))
    }
    await publish(2, 21, 0)
    await publish(3, 35, -HOUR)
    expect(store.reader.publishedPlans().map(({ version }) => version)).toEqual(['2', '3'])
  })
})

test('standings are evaluated anew on the day the clock says, no number of days is negative, and the log keeps its order', async () => {
  await takeDamaged(store)
  await take(store, [csv('p.csv', [patientRow({ patient_id: 'P3' })])])
  for (const [step, seconds] of [0, YEAR, -YEAR, 2 * YEAR, -DAY, HOUR, 0].entries()) {
    const call = callOf(store, 'console', later(seconds))
    await take(store, [csv(`${step}.csv`, [resultRow({ patient_id: 'P2', collected_at: '2020-01-05', accession: `c${step}` })])], { call })
    const { patients } = granted(await listDocument(call, null))
    const late = patients.flatMap(({ overdue }) => overdue.map(({ daysLate }) => daysLate))
    const opened = granted(await openPatient(callOf(store, 'physician', later(seconds)), 'P1'))
    for (const days of [...late, ...[...JSON.stringify(opened).matchAll(/"(?:daysLate|waitingDays|days)":(-?\d+)/g)].map(([, n]) => Number(n))]) {
      expect(days).toBeGreaterThanOrEqual(0)
    }
    expect(await lawHolds(url, NOTHING, later(seconds))).toEqual([])
  }
  const { rows } = store.reader.trailPage({ actor: null, limit: 1000, offset: 0 })
  expect(rows.map(({ sequence }) => sequence)).toEqual(rows.map((_, n) => rows.length - n))
  expect(rows.some((row, n) => row.at > (rows[n - 1]?.at ?? row.at))).toBe(true)
})

const { isImpossible, titled } = canMake('the clock of the whole program set back and forward', 'faketime')
const LIBRARY = '/usr/lib/x86_64-linux-gnu/faketime/libfaketime.so.1'

test.skipIf(isImpossible)(titled('programs that believe in other years write to one database one after the other: the law holds'), async () => {
  const working = await bundled('tests/faults/working.ts')
  const { folder, remove } = ownFolder()
  const database = await clinicIn(folder)
  const lines: string[] = []
  for (const offset of ['+0', '-1h', '+1d', '-365d', '+400d']) {
    const env = { ...process.env, LD_PRELOAD: LIBRARY, FAKETIME: offset, FAKETIME_DONT_FAKE_MONOTONIC: '1' }
    const child = startWaiting([working, database, `t${offset}`, '2', 'clock,again'], env)
    await untilReady(child)
    begin(child)
    expect([offset, await child.ended]).toEqual([offset, 0])
    // A year ago the finding was none yet, and cannot be answered.
    expect(child.lines.filter((line) => line.startsWith('failed ')).map((line) => `${offset} ${line}`)).toEqual(
      offset === '-365d' ? Array(2).fill(expect.stringContaining('no longer current')) : [],
    )
    lines.push(...child.lines)
  }
  const years = new Set(lines.filter((line) => line.startsWith('clock ')).map((line) => line.slice(6, 10)))
  expect(years.size).toBeGreaterThan(2)
  expect(acknowledgedIn(lines).files).toHaveLength(10)
  expect(await lawHolds(database, acknowledgedIn(lines), new Date().toISOString())).toEqual([])
  remove()
})
