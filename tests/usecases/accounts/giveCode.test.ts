import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { activate } from '../../../lib/usecases/accounts/activate.ts'
import { disableAccount } from '../../../lib/usecases/accounts/disableAccount.ts'
import { giveCode } from '../../../lib/usecases/accounts/giveCode.ts'
import { readSession } from '../../../lib/usecases/sessions/readSession.ts'
import { signIn } from '../../../lib/usecases/sessions/signIn.ts'
import { freshStore } from '../../store/freshStore.ts'
import { addPerson, callOf, granted, later, PASSWORD } from './persons.ts'

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await addPerson(fresh.store, 'nurse', 'navigator')
})
afterEach(() => fresh.dispose())

const NEW_PASSWORD = 'nine lamps by the harbour'

function trySignIn(password: string) {
  return signIn(fresh.store, { name: 'nurse', password }, { now: new Date(later(60)), requestId: 'r', address: null })
}

test('a lost password: the new code ends the sessions, and the password chosen with it replaces the old one', async () => {
  const { sessionId } = granted(await trySignIn(PASSWORD))
  const { code } = granted(await giveCode(callOf(fresh.store, 'administrator'), { name: 'nurse' }))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(61)) })).toBeNull()
  granted(await activate(callOf(fresh.store, 'none', later(62)), { name: 'nurse', code, password: NEW_PASSWORD }))
  expect((await trySignIn(PASSWORD)).ok).toBe(false)
  expect((await trySignIn(NEW_PASSWORD)).ok).toBe(true)
})

test.each([
  ['a nurse may not', 'navigator', 'not-allowed'],
  ['nobody may', 'none', 'not-allowed'],
] as const)('%s', async (_, role, kind) => {
  expect(await giveCode(callOf(fresh.store, role), { name: 'nurse' })).toMatchObject({ ok: false, kind })
})

test('a disabled account gets none', async () => {
  granted(await disableAccount(callOf(fresh.store), { name: 'nurse' }))
  expect(await giveCode(callOf(fresh.store), { name: 'nurse' })).toMatchObject({ ok: false, kind: 'invalid' })
})
