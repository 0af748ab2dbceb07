import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { confinementOf } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import {
  changePassword,
  listAccounts,
  makeRecoveryCodes,
  offerSecondFactor,
  readOwnAccount,
  readSession,
  setUpSecondFactor,
  takeFactorAway,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from '../accounts/persons.ts'
import { at, codeAt, type Device, ownCall, personWithDevice, tryAt } from './device.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let nurse: Device
beforeEach(async () => {
  vi.stubEnv('NEXTAUTH_SECRET', 'only for these tests, only for these tests')
  fresh = await freshStore()
  nurse = await personWithDevice(fresh.store)
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await fresh.dispose()
})

const byRecovery = (seconds: number, number: number, codes = nurse.codes) => tryAt(fresh.store, seconds, { code: codes[number] ?? '' })

test('a recovery code signs in once, as an entry of its own, and the session says so', async () => {
  const { sessionId } = granted(await byRecovery(60, 0))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(61)) })).toMatchObject({ means: 'recovery-code' })
  expect(logged(fresh.store).slice(-2)).toEqual(
    ['sign-in', 'recovery-code-used'].map((action) => ({ actor: 'nurse', role: 'navigator', action, outcome: 'success' })),
  )
  expect(granted(await readOwnAccount(nurse.call)).secondFactor.codesLeft).toBe(9)
  expect((await byRecovery(62, 0)).ok).toBe(false)
  expect((await tryAt(fresh.store, 63, { code: nurse.codes[1]?.toLowerCase().replaceAll('-', ' ') ?? '' })).ok).toBe(true)
})

test('of two sign-ins with one recovery code at the same moment one wins; with a wrong password none is used up', async () => {
  const answers = await Promise.all([byRecovery(60, 0), byRecovery(60, 0)])
  expect(answers.filter(({ ok }) => ok)).toHaveLength(1)
  expect((await tryAt(fresh.store, 60, { password: 'wrong', code: nurse.codes[1] ?? '' })).ok).toBe(false)
  expect((await byRecovery(61, 1)).ok).toBe(true)
})

test("somebody else's recovery code counts nothing", async () => {
  const other = await personWithDevice(fresh.store, 'other')
  expect((await byRecovery(60, 0, other.codes)).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { name: 'other', code: other.codes[0] ?? '' })).ok).toBe(true)
})

test('new codes take the place of all earlier ones, with the password and a code', async () => {
  const make = (seconds: number, code: string, password = PASSWORD) => makeRecoveryCodes(at(nurse.call, seconds), { password, code })
  expect(await make(60, '')).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await make(60, codeAt(nurse.secret, 60), 'wrong')).toMatchObject({ ok: false, kind: 'not-allowed' })
  const { codes } = granted(await make(60, codeAt(nurse.secret, 60)))
  expect(codes.filter((code) => nurse.codes.includes(code))).toEqual([])
  expect(logged(fresh.store).at(-1)).toMatchObject({ actor: 'nurse', action: 'recovery-codes-made' })
  expect((await byRecovery(90, 0)).ok).toBe(false)
  expect((await byRecovery(90, 0, codes)).ok).toBe(true)
  expect(granted(await readOwnAccount(nurse.call)).secondFactor.codesLeft).toBe(9)
})

test('new codes may be made with a recovery code, and the session is then like any other', async () => {
  const call = await ownCall(fresh.store, 60, { code: nurse.codes[0] ?? '' })
  granted(await makeRecoveryCodes(at(call, 70), { password: PASSWORD, code: nurse.codes[1] ?? '' }))
  expect(fresh.store.reader.session(call.actor.sessionHash ?? '')).toMatchObject({ means: 'password-and-code' })
  expect(
    logged(fresh.store)
      .slice(-2)
      .map(({ action }) => action),
  ).toEqual(['recovery-code-used', 'recovery-codes-made'])
})

test('an administrator takes a lost one away: sessions end, codes count no more, the password is enough', async () => {
  await addPerson(fresh.store, 'admin', 'administrator')
  const admin = await ownCall(fresh.store, 30, { name: 'admin' })
  const has = async () => granted(await listAccounts(admin)).map(({ name, hasSecondFactor }) => [name, hasSecondFactor])
  expect(await has()).toEqual([
    ['admin', false],
    ['nurse', true],
  ])
  expect(granted(await takeFactorAway(admin, { name: 'Nurse' }))).toEqual({ endedSessions: 1 })
  expect(logged(fresh.store).slice(-2)).toEqual(
    ['second-factor-taken-away', 'sessions-ended'].map((action) => ({ actor: 'admin', role: 'administrator', action, outcome: 'success' })),
  )
  expect(fresh.store.reader.session(nurse.call.actor.sessionHash ?? '')?.endedAt).toBe(admin.now)
  expect(rowsOf(fresh.url, 'recovery_code')).toEqual([])
  expect((await tryAt(fresh.store, 60)).ok).toBe(true)
  expect(await takeFactorAway(admin, { name: 'nurse' })).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await takeFactorAway(admin, { name: 'nobody' })).toMatchObject({ ok: false, kind: 'not-found' })
})

test('nobody takes their own away on the page; the command line does', async () => {
  const admin = await personWithDevice(fresh.store, 'admin', 'administrator')
  expect(await takeFactorAway(admin.call, { name: 'ADMIN' })).toMatchObject({
    ok: false,
    kind: 'invalid',
    reason: expect.stringContaining('Your account'),
  })
  expect((await takeFactorAway(callOf(fresh.store), { name: 'admin' })).ok).toBe(true)
})

test('whoever is left with a short password reaches the own account alone, until the password is longer or a new second factor set up', async () => {
  const short = 'tin kettle'
  granted(await changePassword(at(nurse.call, 60), { password: PASSWORD, code: codeAt(nurse.secret, 60), chosen: short }))
  granted(await takeFactorAway(callOf(fresh.store), { name: 'nurse' }))
  const confined = async (call: typeof nurse.call) => granted(await readOwnAccount(call)).confinement
  const [one, two] = [await ownCall(fresh.store, 90, { password: short }), await ownCall(fresh.store, 90, { password: short })]
  expect([await confined(one), await confined(two)]).toEqual(['longer-password', 'longer-password'])
  expect(granted(await readOwnAccount(one)).leastCharacters).toBe(15)
  expect(await changePassword(at(one, 91), { password: short, code: '', chosen: 'tin kettles' })).toMatchObject({ ok: false, kind: 'invalid' })
  const { secret, offer } = granted(await offerSecondFactor(at(two, 91)))
  granted(await setUpSecondFactor(at(two, 91), { offer, password: short, code: codeAt(secret, 91) }))
  expect(await confined(two)).toBe(null)
  granted(await takeFactorAway(callOf(fresh.store), { name: 'nurse' }))
  const three = await ownCall(fresh.store, 120, { password: short })
  granted(await changePassword(at(three, 121), { password: short, code: '', chosen: 'nine lamps by the harbour' }))
  expect(await confined(three)).toBe(null)
})

test.each([
  ['password', 'optional', null],
  ['password', 'required', 'second-factor'],
  ['short-password', 'optional', 'longer-password'],
  ['short-password', 'required', 'second-factor'],
  ['password-and-code', 'required', null],
  ['recovery-code', 'required', null],
  ['provider', 'required', null],
] as const)('signed in by %s where a second factor is %s: first %s', (means, policy, first) => {
  expect(confinementOf(means, policy)).toBe(first)
})

test.each([
  [undefined, null, false],
  ['optional', null, false],
  ['required', 'second-factor', true],
  ['requird', 'second-factor', true],
])('LOWMARK_SECOND_FACTOR=%s', async (setting, confinement, isRequired) => {
  vi.stubEnv('LOWMARK_SECOND_FACTOR', setting)
  await addPerson(fresh.store, 'plain', 'navigator')
  const own = granted(await readOwnAccount(await ownCall(fresh.store, 0, { name: 'plain' })))
  expect(own).toMatchObject({ confinement, secondFactor: { isRequired } })
  expect(granted(await readOwnAccount(nurse.call)).confinement).toBe(null)
})
