import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  changePassword,
  makeRecoveryCodes,
  offerSecondFactor,
  readOwnAccount,
  readSession,
  setUpSecondFactor,
  turnOffSecondFactor,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from '../accounts/persons.ts'
import { at, codeAt, ownCall, personWithDevice, tryAt } from './device.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  vi.stubEnv('NEXTAUTH_SECRET', 'only for these tests, only for these tests')
  fresh = await freshStore()
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await fresh.dispose()
})

const SHORT = 'tin kettle'

async function factorOf(call: Parameters<typeof readOwnAccount>[0]) {
  return granted(await readOwnAccount(call)).secondFactor
}

test('setting up: a secret, a first code, ten recovery codes; the other sessions end and this one has shown it', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  const elsewhere = granted(await tryAt(fresh.store, 0)).sessionId
  const call = await ownCall(fresh.store, 0)
  const offered = granted(await offerSecondFactor(call))
  expect(offered.address).toBe(`otpauth://totp/Lowmark:nurse?issuer=Lowmark&secret=${offered.secret}&algorithm=SHA1&digits=6&period=30`)
  expect(offered.secret).toMatch(/^[A-Z2-7]{32}$/)
  expect(await factorOf(call)).toMatchObject({ isOn: false, codesLeft: 0 })
  const before = logged(fresh.store).length
  const { codes } = granted(await setUpSecondFactor(at(call, 90), { offer: offered.offer, password: PASSWORD, code: codeAt(offered.secret, 90) }))
  expect(new Set(codes).size).toBe(10)
  for (const code of codes) expect(code).toMatch(/^([A-HJKMNP-Z2-9]{4}-){6}[A-HJKMNP-Z2-9]{4}$/)
  expect(logged(fresh.store).slice(before)).toEqual(
    ['second-factor-set-up', 'recovery-codes-made', 'sessions-ended'].map((action) => ({
      actor: 'nurse',
      role: 'navigator',
      action,
      outcome: 'success',
    })),
  )
  expect(await factorOf(call)).toEqual({ isOn: true, since: later(90), isReadable: true, isRequired: false, codesLeft: 10 })
  expect(await readSession(fresh.store, elsewhere, { now: new Date(later(91)) })).toBe(null)
  expect(fresh.store.reader.session(call.actor.sessionHash ?? '')).toMatchObject({ means: 'password-and-code', endedAt: null })
})

test('a wrong password, a wrong first code and an offer that does not hold leave everything as it was', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  await addPerson(fresh.store, 'other', 'navigator')
  const call = await ownCall(fresh.store, 0)
  const elsewhere = await ownCall(fresh.store, 0)
  const other = await ownCall(fresh.store, 0, { name: 'other' })
  const { secret, offer } = granted(await offerSecondFactor(call))
  const sent = { offer, password: PASSWORD, code: codeAt(secret, 60) }
  const now = at(call, 60)
  expect(await setUpSecondFactor(now, { ...sent, password: 'wrong' })).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 1 })
  for (const [wrongly, given] of [
    [now, { ...sent, code: codeAt(secret, 180) }],
    [now, { ...sent, code: '' }],
    [now, { ...sent, offer: `${offer.slice(0, -2)}AA` }],
    [now, { ...sent, offer: '' }],
    [at(elsewhere, 60), sent],
    [at(other, 60), sent],
    [at(call, 30 * 60), { ...sent, code: codeAt(secret, 30 * 60) }],
  ] as const)
    expect(await setUpSecondFactor(wrongly, given)).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await factorOf(call)).toMatchObject({ isOn: false, codesLeft: 0 })
  expect(fresh.store.reader.openSessions('')).toHaveLength(3)
  expect((await setUpSecondFactor(now, sent)).ok).toBe(true)
})

test('one at a time, and no offer is taken twice', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  const call = await ownCall(fresh.store, 0)
  const { secret, offer } = granted(await offerSecondFactor(call))
  granted(await setUpSecondFactor(call, { offer, password: PASSWORD, code: codeAt(secret, 0) }))
  expect(await offerSecondFactor(call)).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await setUpSecondFactor(at(call, 30), { offer, password: PASSWORD, code: codeAt(secret, 30) })).toMatchObject({ ok: false })
  granted(await turnOffSecondFactor(at(call, 60), { password: PASSWORD, code: codeAt(secret, 60) }))
  expect(await setUpSecondFactor(at(call, 90), { offer, password: PASSWORD, code: codeAt(secret, 90) })).toMatchObject({ ok: false, kind: 'invalid' })
})

test('turning off takes the password and a code; then the password is enough and nothing of it is left', async () => {
  const { secret, call, codes } = await personWithDevice(fresh.store)
  const elsewhere = granted(await tryAt(fresh.store, 60, { code: codeAt(secret, 60) })).sessionId
  const code = codeAt(secret, 90)
  const now = at(call, 90)
  expect(await turnOffSecondFactor(now, { password: PASSWORD, code: '' })).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await turnOffSecondFactor(now, { password: 'wrong and long enough', code })).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(logged(fresh.store).slice(-2)).toEqual([0, 1].map(() => ({ actor: 'nurse', role: 'navigator', action: 'sign-in', outcome: 'failure' })))
  granted(await turnOffSecondFactor(now, { password: PASSWORD, code }))
  expect(
    logged(fresh.store)
      .slice(-2)
      .map(({ action }) => action),
  ).toEqual(['second-factor-turned-off', 'sessions-ended'])
  expect(await readSession(fresh.store, elsewhere, { now: new Date(later(91)) })).toBe(null)
  expect(fresh.store.reader.session(call.actor.sessionHash ?? '')).toMatchObject({ means: 'password', endedAt: null })
  expect((await tryAt(fresh.store, 120)).ok).toBe(true)
  expect(rowsOf(fresh.url, 'recovery_code')).toEqual([])
  expect(rowsOf(fresh.url, 'second_factor')).toMatchObject([{ sealed: null, last_step: null }])
  expect(await turnOffSecondFactor(now, { password: PASSWORD, code: codes[0] ?? '' })).toMatchObject({ ok: false, kind: 'invalid' })
})

test('with a second factor a password of 8 characters is taken; before turning it off a longer one is chosen', async () => {
  const { secret, call } = await personWithDevice(fresh.store)
  const other = granted(await tryAt(fresh.store, 60, { code: codeAt(secret, 60) })).sessionId
  expect(await changePassword(at(call, 90), { password: PASSWORD, code: codeAt(secret, 90), chosen: 'kettle7' })).toMatchObject({ kind: 'invalid' })
  expect(await changePassword(at(call, 90), { password: PASSWORD, code: '000000', chosen: SHORT })).toMatchObject({ kind: 'not-allowed' })
  granted(await changePassword(at(call, 90), { password: PASSWORD, code: codeAt(secret, 90), chosen: SHORT }))
  expect(await readSession(fresh.store, other, { now: new Date(later(91)) })).toBe(null)
  expect((await tryAt(fresh.store, 120, { code: codeAt(secret, 120) })).ok).toBe(false)
  const off = await turnOffSecondFactor(at(call, 150), { password: SHORT, code: codeAt(secret, 150) })
  expect(off).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('at least 15 characters') })
  expect((await tryAt(fresh.store, 150, { password: SHORT, code: codeAt(secret, 150) })).ok).toBe(true)
  granted(await changePassword(at(call, 180), { password: SHORT, code: codeAt(secret, 180), chosen: 'nine lamps by the harbour' }))
  granted(await turnOffSecondFactor(at(call, 210), { password: 'nine lamps by the harbour', code: codeAt(secret, 210) }))
})

test('without a second factor a password has 15 characters, and a common one is refused whatever its case', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  const call = await ownCall(fresh.store, 0)
  const change = (chosen: string) => changePassword(call, { password: PASSWORD, code: '', chosen })
  expect(await change(SHORT)).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('at least 15') })
  expect(await change('1qaz2wsx3EDC4rfv')).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('published breaches') })
  expect(logged(fresh.store).filter(({ action }) => action === 'password-changed')).toEqual([])
  granted(await change('nine lamps by the harbour'))
  expect(logged(fresh.store).at(-1)).toMatchObject({ actor: 'nurse', action: 'password-changed' })
  expect((await tryAt(fresh.store, 60)).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { password: 'nine lamps by the harbour' })).ok).toBe(true)
})

test('guessing the password in the forms of the own account waits like signing in', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  const call = await ownCall(fresh.store, 0)
  const change = (seconds: number, password: string) => changePassword(at(call, seconds), { password, code: '', chosen: 'nine lamps by the harbour' })
  for (let n = 0; n < 5; n++) expect(await change(1, 'wrong')).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await change(30, PASSWORD)).toEqual(await change(30, 'wrong'))
  expect((await change(31, PASSWORD)).ok).toBe(true)
})

test('the command line has no own account', async () => {
  await addPerson(fresh.store, 'a console', 'navigator')
  const call = callOf(fresh.store)
  const shown = { password: PASSWORD, code: '' }
  for (const outcome of [
    await readOwnAccount(call),
    await offerSecondFactor(call),
    await makeRecoveryCodes(call, shown),
    await turnOffSecondFactor(call, shown),
    await changePassword(call, { ...shown, chosen: 'nine lamps by the harbour' }),
  ])
    expect(outcome).toMatchObject({ ok: false, kind: 'not-found' })
})
