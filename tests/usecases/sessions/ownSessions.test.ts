import { createHash } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import {
  type Call,
  endOtherSessions,
  endOwnSession,
  endSession,
  listAccounts,
  ownSessions,
  readSession,
  signIn,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from '../accounts/persons.ts'

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await addPerson(fresh.store, 'nurse', 'navigator')
  await addPerson(fresh.store, 'doctor', 'physician')
})
afterEach(() => fresh.dispose())

const digest = (text: string) => createHash('sha256').update(text).digest('hex')

async function enter(name: string, at: number, address = '10.0.0.7'): Promise<string> {
  return granted(await signIn(fresh.store, { name, password: PASSWORD }, { now: new Date(later(at)), requestId: 'r', address })).sessionId
}

/** A call as the pages make it: in the session of this browser. */
function within(sessionId: string, at: number, role: Role = 'navigator', name = 'nurse'): Call {
  const call = callOf(fresh.store, role, later(at))
  return { ...call, actor: { ...call.actor, name, sessionHash: digest(sessionId) } }
}

const holds = async (sessionId: string, at: number) => (await readSession(fresh.store, sessionId, { now: new Date(later(at)) })) !== null

test('a person sees the own open sessions, the latest first, with this one marked, and nobody else’s', async () => {
  const first = await enter('nurse', 0, '10.0.0.7')
  const second = await enter('nurse', 120, '10.0.0.8')
  await enter('doctor', 130)
  const shown = granted(await ownSessions(within(first, 180)))
  expect(shown.map(({ handle: _, ...rest }) => rest)).toEqual([
    { since: later(120), lastSeenAt: later(120), address: '10.0.0.8', isThis: false },
    { since: later(0), lastSeenAt: later(0), address: '10.0.0.7', isThis: true },
  ])
  // What a page is given opens nothing: neither what the browser holds nor what the database keeps of it.
  for (const secret of [first, second, digest(first), digest(second)]) {
    for (let from = 0; from + 8 <= secret.length; from++) expect(JSON.stringify(shown)).not.toContain(secret.slice(from, from + 8))
  }
})

test('what has run out is not shown as open, and the console has none', async () => {
  const idle = await enter('nurse', 0)
  const here = await enter('nurse', 10 * 60)
  expect(granted(await ownSessions(within(here, 15 * 60 - 1)))).toHaveLength(2)
  expect(granted(await ownSessions(within(here, 15 * 60))).map(({ isThis }) => isThis)).toEqual([true])
  expect(granted(await ownSessions(within(idle, 15 * 60)))).toEqual([])
  expect(granted(await ownSessions(callOf(fresh.store)))).toEqual([])
})

test('one of the others is ended at once, in the log with which one; this one is not, nor is somebody else’s', async () => {
  const [here, there] = [await enter('nurse', 0), await enter('nurse', 1)]
  const doctors = await enter('doctor', 2)
  const [other, own] = granted(await ownSessions(within(here, 3)))
  const [doctorsOwn] = granted(await ownSessions(within(doctors, 3, 'physician', 'doctor')))
  const rows = logged(fresh.store).length
  expect(await endOwnSession(within(here, 4), { handle: own?.handle ?? '' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await endOwnSession(within(here, 4), { handle: doctorsOwn?.handle ?? '' })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(logged(fresh.store)).toHaveLength(rows)
  expect([await holds(here, 4), await holds(there, 4), await holds(doctors, 4)]).toEqual([true, true, true])
  granted(await endOwnSession(within(here, 5), { handle: other?.handle ?? '' }))
  expect([await holds(here, 6), await holds(there, 6), await holds(doctors, 6)]).toEqual([true, false, true])
  const [entry] = fresh.store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
  expect(entry).toMatchObject({ actor: 'nurse', action: 'sessions-ended', object: 'account nurse', sessionHash: digest(here) })
  expect(entry?.event).toEqual({ action: 'sessions-ended', account: 'nurse', count: 1, session: digest(there) })
  expect(await endOwnSession(within(here, 7), { handle: other?.handle ?? '' })).toMatchObject({ ok: false, kind: 'not-found' })
})

test('all others are ended, and only those', async () => {
  const [one, two, here] = [await enter('nurse', 0), await enter('nurse', 1), await enter('nurse', 2)]
  const doctors = await enter('doctor', 2)
  expect(granted(await endOtherSessions(within(here, 3)))).toEqual({ endedSessions: 2 })
  expect(await Promise.all([one, two, here, doctors].map((session) => holds(session, 4)))).toEqual([false, false, true, true])
  expect(await endOtherSessions(within(here, 5))).toMatchObject({ ok: false, kind: 'not-found' })
})

test('an administrator sees every open session of each account and ends one of them', async () => {
  const [nurses, nursesToo] = [await enter('nurse', 0), await enter('nurse', 1)]
  const doctors = await enter('doctor', 2)
  const admin = callOf(fresh.store, 'administrator', later(3))
  const accounts = granted(await listAccounts(admin))
  expect(accounts.map(({ name, sessions }) => [name, sessions.map(({ since, isThis }) => [since, isThis])])).toEqual([
    ['doctor', [[later(2), false]]],
    [
      'nurse',
      [
        [later(1), false],
        [later(0), false],
      ],
    ],
  ])
  const handle = accounts[1]?.sessions[1]?.handle ?? ''
  expect(await endSession(admin, { name: 'doctor', handle })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(await holds(nurses, 4)).toBe(true)
  granted(await endSession(admin, { name: 'nurse', handle }))
  expect(await Promise.all([nurses, nursesToo, doctors].map((session) => holds(session, 4)))).toEqual([false, true, true])
  expect(logged(fresh.store).at(-1)).toMatchObject({ role: 'administrator', action: 'sessions-ended' })
})
