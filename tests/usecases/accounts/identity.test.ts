import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import {
  addAccount,
  disableAccount,
  giveCode,
  joinIdentity,
  listAccounts,
  presentCode,
  readSession,
  signIn,
  signInByIdentity,
  unjoinAccount,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from './persons.ts'

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const HOURS = 3600
const IDENTITY = { issuer: 'https://sign-on.example', subject: 'subject-of-n' }
const facts = (seconds = 0) => ({ now: new Date(later(seconds)), requestId: 'r', address: '192.0.2.1' })
const present = (name: string, code: string, seconds = 0) => presentCode(callOf(fresh.store, 'none', later(seconds)), { name, code })
const enter = (seconds = 1, identity = IDENTITY) => signInByIdentity(fresh.store, identity, facts(seconds))

/** An account without a password, joined. */
async function join(name: string, role: Role, identity = IDENTITY): Promise<string> {
  const { code } = granted(await addAccount(callOf(fresh.store), { name, role }))
  return granted(await joinIdentity(fresh.store, granted(await present(name, code)), identity, facts())).sessionId
}

test('a code presented with an identity joins both, signs in, and is used up', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  const presented = granted(await present('N', code.toLowerCase().replaceAll('-', ' ')))
  const { sessionId, role } = granted(await joinIdentity(fresh.store, presented, IDENTITY, facts()))
  expect([role, await readSession(fresh.store, sessionId, { now: new Date(later(1)) })]).toMatchObject(['navigator', { name: 'n' }])
  expect(await present('n', code)).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await joinIdentity(fresh.store, presented, { ...IDENTITY, subject: 'another' }, facts())).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(granted(await enter())).toMatchObject({ name: 'n', role: 'navigator' })
  expect(logged(fresh.store).map(({ actor, role: as, action, outcome }) => [actor, as, action, outcome])).toEqual([
    ['a console', 'console', 'account-added', 'success'],
    ['n', 'navigator', 'account-joined', 'success'],
    ['n', 'navigator', 'sign-in', 'success'],
    ['n', 'none', 'sign-in', 'failure'],
    ['n', 'none', 'sign-in', 'failure'],
    ['n', 'navigator', 'sign-in', 'success'],
  ])
})

test.each([
  ['a moment before 72 hours', 72 * HOURS - 1, true],
  ['at 72 hours', 72 * HOURS, false],
])('a code %s, also where it was presented in time', async (_, seconds, works) => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  const presented = granted(await present('n', code))
  expect((await present('n', code, seconds)).ok).toBe(works)
  expect((await joinIdentity(fresh.store, presented, IDENTITY, facts(seconds))).ok).toBe(works)
})

test('a code that was replaced, and one of an account disabled meanwhile, join nobody', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  const presented = granted(await present('n', code))
  const next = granted(await giveCode(callOf(fresh.store), { name: 'n' }))
  expect((await joinIdentity(fresh.store, presented, IDENTITY, facts())).ok).toBe(false)
  const again = granted(await present('n', next.code))
  granted(await disableAccount(callOf(fresh.store), { name: 'n' }))
  expect((await joinIdentity(fresh.store, again, IDENTITY, facts())).ok).toBe(false)
  expect((await present('n', next.code)).ok).toBe(false)
})

test('a joined account does not take a second identity, even with a code; it says so to whoever holds one', async () => {
  await join('n', 'navigator')
  const { code } = granted(await giveCode(callOf(fresh.store), { name: 'n' }))
  expect(await present('n', code)).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('joined to an identity already') })
})

test('guessing codes has to wait like guessing passwords', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  for (let n = 0; n < 5; n++) await present('n', 'WRONG')
  expect((await present('n', code, 29)).ok).toBe(false)
  expect((await present('n', code, 30)).ok).toBe(true)
})

test("single sign-on neither waits for failed passwords nor forgets them: somebody else's guesses lock nobody out and gain nothing", async () => {
  await addPerson(fresh.store, 'n', 'navigator')
  const { code } = granted(await giveCode(callOf(fresh.store), { name: 'n' }))
  granted(await joinIdentity(fresh.store, granted(await present('n', code)), IDENTITY, facts()))
  for (let n = 0; n < 5; n++) await signIn(fresh.store, { name: 'n', password: 'a wrong guess of it' }, facts())
  expect((await enter()).ok).toBe(true)
  expect(fresh.store.reader.account('n')).toMatchObject({ failures: 5, waitUntil: later(30) })
  // The password it had still serves.
  expect((await signIn(fresh.store, { name: 'n', password: PASSWORD }, facts(31))).ok).toBe(true)
})

test('unknown and disabled are refused in the same words; no session is made', async () => {
  await join('n', 'navigator')
  granted(await disableAccount(callOf(fresh.store), { name: 'n' }))
  const refused = await enter()
  expect(refused).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await enter(1, { ...IDENTITY, subject: 'Subject-of-n' })).toEqual(refused)
  expect(await enter(1, { ...IDENTITY, issuer: 'https://another.example' })).toEqual(refused)
  expect(fresh.store.reader.openSessions('')).toEqual([])
})

test('unjoining ends the sessions and what joined them; an administrator with single sign-on alone counts as one, and is not the last to go', async () => {
  const sessionId = await join('n', 'administrator')
  const call = callOf(fresh.store, 'administrator')
  expect(await disableAccount(call, { name: 'n' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await unjoinAccount(call, { name: 'n' })).toMatchObject({
    ok: false,
    kind: 'invalid',
    reason: expect.stringContaining('last administrator'),
  })
  await join('m', 'administrator', { ...IDENTITY, subject: 'subject-of-m' })
  expect(granted(await unjoinAccount(call, { name: 'n' }))).toEqual({ endedSessions: 1 })
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(1)) })).toBeNull()
  expect((await enter()).ok).toBe(false)
  expect(await unjoinAccount(call, { name: 'n' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(granted(await listAccounts(call)).map(({ name, state, joined }) => [name, state, joined])).toEqual([
    ['m', 'active', true],
    ['n', 'waiting for its code', false],
  ])
})

test('the identity of a disabled account is free for another one once it is unjoined', async () => {
  await join('n', 'navigator')
  granted(await disableAccount(callOf(fresh.store), { name: 'n' }))
  await expect(join('m', 'navigator')).rejects.toThrow(/did not work/)
  granted(await unjoinAccount(callOf(fresh.store), { name: 'n' }))
  await join('o', 'navigator')
  expect(granted(await enter())).toMatchObject({ name: 'o' })
})

test('an account that is joined is in use: its name is not taken by adding it again', async () => {
  await join('n', 'navigator')
  expect(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' })).toMatchObject({ ok: false, kind: 'invalid' })
})
