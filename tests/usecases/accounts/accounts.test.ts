import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { activate } from '../../../lib/usecases/accounts/activate.ts'
import { addAccount } from '../../../lib/usecases/accounts/addAccount.ts'
import { changeRole } from '../../../lib/usecases/accounts/changeRole.ts'
import { disableAccount } from '../../../lib/usecases/accounts/disableAccount.ts'
import { endSessions } from '../../../lib/usecases/accounts/endSessions.ts'
import { listAccounts } from '../../../lib/usecases/accounts/listAccounts.ts'
import { readSession } from '../../../lib/usecases/sessions/readSession.ts'
import { signIn } from '../../../lib/usecases/sessions/signIn.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from './persons.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const HOURS = 3600

async function signedInAs(name: string): Promise<string> {
  return granted(await signIn(fresh.store, { name, password: PASSWORD }, { now: new Date(later(0)), requestId: 'r', address: null })).sessionId
}

async function holds(sessionId: string): Promise<boolean> {
  return (await readSession(fresh.store, sessionId, { now: new Date(later(1)) })) !== null
}

test('the first administrator comes from the command line, by a one-time code that works once', async () => {
  const { code, expiresAt } = granted(await addAccount(callOf(fresh.store), { name: 'admin', role: 'administrator' }))
  expect(expiresAt).toBe(later(72 * HOURS))
  expect(code).toMatch(/^([A-HJKMNP-Z2-9]{4}-){6}[A-HJKMNP-Z2-9]{4}$/)
  const nobody = callOf(fresh.store, 'none', later(60))
  granted(await activate(nobody, { name: 'Admin', code: code.toLowerCase().replaceAll('-', ' '), password: PASSWORD }))
  expect(await activate(nobody, { name: 'admin', code, password: PASSWORD })).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await holds(await signedInAs('admin'))).toBe(true)
  expect(logged(fresh.store).map(({ actor, action }) => [actor, action])).toEqual([
    ['a console', 'account-added'],
    ['admin', 'account-activated'],
    ['admin', 'sign-in'],
    ['admin', 'sign-in'],
  ])
})

test('the code itself is nowhere in the database', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'admin', role: 'administrator' }))
  const everything = JSON.stringify([rowsOf(fresh.url, 'account'), rowsOf(fresh.url, 'trail')])
  expect(everything).not.toContain(code)
  expect(everything).not.toContain(code.replaceAll('-', ''))
})

test.each([
  ['a moment before 72 hours', 72 * HOURS - 1, true],
  ['at 72 hours', 72 * HOURS, false],
])('a code %s', async (_, seconds, works) => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  expect((await activate(callOf(fresh.store, 'none', later(seconds)), { name: 'n', code, password: PASSWORD })).ok).toBe(works)
})

test('a new code takes the place of one that was never used', async () => {
  const first = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' })).code
  const second = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' })).code
  const nobody = callOf(fresh.store, 'none')
  expect((await activate(nobody, { name: 'n', code: first, password: PASSWORD })).ok).toBe(false)
  expect((await activate(nobody, { name: 'n', code: second, password: PASSWORD })).ok).toBe(true)
  expect(await addAccount(callOf(fresh.store), { name: 'N', role: 'navigator' })).toMatchObject({ ok: false, kind: 'invalid' })
})

test('guessing codes has to wait like guessing passwords', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  for (let n = 0; n < 5; n++) await activate(callOf(fresh.store, 'none'), { name: 'n', code: 'WRONG', password: PASSWORD })
  expect((await activate(callOf(fresh.store, 'none', later(29)), { name: 'n', code, password: PASSWORD })).ok).toBe(false)
  expect((await activate(callOf(fresh.store, 'none', later(30)), { name: 'n', code, password: PASSWORD })).ok).toBe(true)
})

test('a password too easy to guess is refused with the reason, and the code still works', async () => {
  const { code } = granted(await addAccount(callOf(fresh.store), { name: 'n', role: 'navigator' }))
  const easy = await activate(callOf(fresh.store, 'none'), { name: 'n', code, password: 'aaaaaaaaaaaaaaaa' })
  expect(easy).toMatchObject({ ok: false, kind: 'invalid' })
  expect((await activate(callOf(fresh.store, 'none'), { name: 'n', code, password: PASSWORD })).ok).toBe(true)
})

test.each(['', '  ', 'a'.repeat(101), 'a\u202eb', 'a\nb'])('the name %j is refused', async (name) => {
  expect(await addAccount(callOf(fresh.store), { name, role: 'navigator' })).toMatchObject({ ok: false, kind: 'invalid' })
})

const ENDINGS = [
  ['disabling', (store: Store) => disableAccount(callOf(store, 'administrator'), { name: 'n' }), 'account-disabled'],
  ['a change of role', (store: Store) => changeRole(callOf(store, 'administrator'), { name: 'n', role: 'physician' }), 'account-role-changed'],
  ['ending them', (store: Store) => endSessions(callOf(store, 'administrator'), { name: 'n' }), 'sessions-ended'],
] as const

test.each(ENDINGS)('%s ends the sessions of that account at once, and no others', async (_, end, action) => {
  await addPerson(fresh.store, 'n', 'navigator')
  await addPerson(fresh.store, 'other', 'navigator')
  const [one, two, other] = [await signedInAs('n'), await signedInAs('n'), await signedInAs('other')]
  expect(granted(await end(fresh.store))).toEqual({ endedSessions: 2 })
  expect([await holds(one), await holds(two), await holds(other)]).toEqual([false, false, true])
  expect(logged(fresh.store).at(-1)).toMatchObject({ action, role: 'administrator' })
})

test('sessions that had run out by themselves are not counted as ended', async () => {
  await addPerson(fresh.store, 'n', 'navigator')
  await signedInAs('n')
  const call = callOf(fresh.store, 'administrator')
  const tomorrow = new Date(Date.parse(call.now) + 24 * 3600 * 1000).toISOString()
  expect(granted(await endSessions({ ...call, now: tomorrow }, { name: 'n' }))).toEqual({ endedSessions: 0 })
})

test('a disabled account signs in no more', async () => {
  await addPerson(fresh.store, 'n', 'navigator')
  granted(await disableAccount(callOf(fresh.store), { name: 'n' }))
  await expect(signedInAs('n')).rejects.toThrow(/not right/)
})

test('the last administrator is neither disabled nor given another role from the pages', async () => {
  await addPerson(fresh.store, 'one', 'administrator')
  const call = callOf(fresh.store, 'administrator')
  expect(await disableAccount(call, { name: 'one' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await changeRole(call, { name: 'one', role: 'quality' })).toMatchObject({ ok: false, kind: 'invalid' })
  await addPerson(fresh.store, 'two', 'administrator')
  expect((await changeRole(call, { name: 'one', role: 'quality' })).ok).toBe(true)
})

test('an account nobody has is not found, and nothing is logged of it', async () => {
  const before = logged(fresh.store).length
  expect(await disableAccount(callOf(fresh.store), { name: 'nobody' })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(logged(fresh.store)).toHaveLength(before)
})

const ASKED = [
  (store: Store, role: 'navigator' | 'physician' | 'quality' | 'none') => addAccount(callOf(store, role), { name: 'x', role: 'administrator' }),
  (store: Store, role: 'navigator' | 'physician' | 'quality' | 'none') => disableAccount(callOf(store, role), { name: 'n' }),
  (store: Store, role: 'navigator' | 'physician' | 'quality' | 'none') => changeRole(callOf(store, role), { name: 'n', role: 'administrator' }),
  (store: Store, role: 'navigator' | 'physician' | 'quality' | 'none') => endSessions(callOf(store, role), { name: 'n' }),
  (store: Store, role: 'navigator' | 'physician' | 'quality' | 'none') => listAccounts(callOf(store, role)),
]

test.each(['navigator', 'physician', 'quality', 'none'] as const)('%s may do nothing with accounts, and each refusal is logged', async (role) => {
  await addPerson(fresh.store, 'n', 'navigator')
  const before = rowsOf(fresh.url, 'account')
  const rows = logged(fresh.store).length
  for (const ask of ASKED) expect(await ask(fresh.store, role)).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(rowsOf(fresh.url, 'account')).toEqual(before)
  expect(
    logged(fresh.store)
      .slice(rows)
      .map(({ action, outcome }) => [action, outcome]),
  ).toEqual(ASKED.map(() => ['access-refused', 'failure']))
})

test('the list of accounts tells state, last sign-in and sessions that still hold', async () => {
  granted(await addAccount(callOf(fresh.store), { name: 'waits', role: 'quality' }))
  await addPerson(fresh.store, 'n', 'navigator')
  await addPerson(fresh.store, 'gone', 'physician')
  granted(await disableAccount(callOf(fresh.store), { name: 'gone' }))
  await signedInAs('n')
  const shown = async (seconds: number) =>
    granted(await listAccounts(callOf(fresh.store, 'administrator', later(seconds)))).map((a) => [a.name, a.state, a.lastSignInAt, a.sessions.length])
  expect(await shown(60)).toEqual([
    ['gone', 'disabled', null, 0],
    ['n', 'active', later(0), 1],
    ['waits', 'waiting for its code', null, 0],
  ])
  expect((await shown(15 * 60))[1]).toEqual(['n', 'active', later(0), 0])
})
