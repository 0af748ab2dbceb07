import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openStore, type Store } from '../../../lib/store/index.ts'
import { disableAccount, readSession } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { addPerson, callOf, granted, later, logged } from '../accounts/persons.ts'
import { ADDRESS, codeAt, type Device, personWithDevice, tryAt } from './device.ts'

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

const withCode = (seconds: number, of = seconds) => tryAt(fresh.store, seconds, { code: codeAt(nurse.secret, of) })

test('the password alone signs in no more; with the code of the moment it does, and the session knows by what', async () => {
  expect((await tryAt(fresh.store, 60)).ok).toBe(false)
  const { sessionId } = granted(await withCode(60))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(61)) })).toMatchObject({ name: 'nurse', means: 'password-and-code' })
})

test('a code counts once, and none of an earlier step counts after it', async () => {
  expect((await withCode(5, 0)).ok).toBe(false)
  expect((await withCode(60)).ok).toBe(true)
  expect((await withCode(61, 60)).ok).toBe(false)
  expect((await withCode(89, 60)).ok).toBe(false)
  expect((await withCode(60, 30)).ok).toBe(false)
  expect((await withCode(90)).ok).toBe(true)
})

test('of two sign-ins with one code at the same moment one wins', async () => {
  const answers = await Promise.all([withCode(60), withCode(60), withCode(60)])
  expect(answers.filter(({ ok }) => ok)).toHaveLength(1)
  expect(fresh.store.reader.openSessions('')).toHaveLength(2)
})

test('a wrong password does not spend the code beside it', async () => {
  const code = codeAt(nurse.secret, 60)
  expect((await tryAt(fresh.store, 60, { password: 'wrong', code })).ok).toBe(false)
  expect((await tryAt(fresh.store, 61, { code })).ok).toBe(true)
})

test.each([
  ['two steps old', -60, false],
  ['one step old', -30, true],
  ['one step ahead', 30, true],
  ['two steps ahead', 60, false],
])('a code %s: %s', async (_, off, counts) => {
  expect((await withCode(600, 600 + off)).ok).toBe(counts)
})

test('blanks in a code do not count, and other digits are no code', async () => {
  const code = codeAt(nurse.secret, 60)
  const arabic = [...code].map((digit) => String.fromCodePoint(0x660 + Number(digit))).join('')
  expect((await tryAt(fresh.store, 60, { code: arabic })).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { code: ` ${code.slice(0, 3)} ${code.slice(3)} ` })).ok).toBe(true)
})

test('after the clock was set back no code counts twice; a recovery code helps meanwhile, and time does', async () => {
  expect((await withCode(3600)).ok).toBe(true)
  expect((await withCode(60)).ok).toBe(false)
  expect((await withCode(3600)).ok).toBe(false)
  expect((await tryAt(fresh.store, 60, { code: nurse.codes[0] ?? '' })).ok).toBe(true)
  expect((await withCode(3630)).ok).toBe(true)
})

test('everything that can be wrong answers alike', async () => {
  await addPerson(fresh.store, 'gone', 'navigator')
  granted(await disableAccount(callOf(fresh.store), { name: 'gone' }))
  await addPerson(fresh.store, 'plain', 'navigator')
  const code = codeAt(nurse.secret, 60)
  const answers = [
    await tryAt(fresh.store, 60, { name: 'nobody', code }),
    await tryAt(fresh.store, 60, { password: 'wrong', code }),
    await tryAt(fresh.store, 60, { code: '000000' }),
    await tryAt(fresh.store, 60),
    await tryAt(fresh.store, 60, { code: 'AAAA-AAAA-AAAA-AAAA-AAAA' }),
    await tryAt(fresh.store, 60, { name: 'gone', code }),
    await tryAt(fresh.store, 60, { name: 'plain', password: 'wrong', code }),
  ]
  for (let n = 0; n < 5; n++) answers.push(await tryAt(fresh.store, 60, { code: '000000' }))
  answers.push(await tryAt(fresh.store, 61, { code: codeAt(nurse.secret, 61) }))
  expect(answers[0]).toMatchObject({ ok: false, kind: 'not-allowed' })
  for (const answer of answers) expect(answer).toEqual(answers[0])
})

test('a code typed where none is asked for counts nothing', async () => {
  await addPerson(fresh.store, 'plain', 'navigator')
  expect((await tryAt(fresh.store, 60, { name: 'plain', code: '123456' })).ok).toBe(true)
})

test('the work is the same with a wrong password, a wrong code and an unknown name', async () => {
  const tries = [{ password: 'wrong' }, { code: '000000' }, { name: 'nobody', code: '000000' }]
  const fastest = tries.map(() => Number.POSITIVE_INFINITY)
  for (let round = 0; round < 6; round++)
    for (const [which, typed] of tries.entries()) {
      const began = performance.now()
      await tryAt(fresh.store, 60, typed)
      fastest[which] = Math.min(fastest[which] ?? 0, performance.now() - began)
    }
  // Without the dummy verification an unknown name answers more than ten times faster.
  expect(Math.min(...fastest) / Math.max(...fastest)).toBeGreaterThan(0.3)
})

test('wrong codes wait like wrong passwords, over a restart too, and never for good', async () => {
  for (let n = 0; n < 5; n++) await tryAt(fresh.store, 60, { code: '000000' })
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 5, waitUntil: later(90) })
  await fresh.store.close()
  const again = await openStore(fresh.url)
  try {
    expect((await tryAt(again, 89, { code: codeAt(nurse.secret, 89) })).ok).toBe(false)
    expect((await tryAt(again, 90, { code: codeAt(nurse.secret, 90) })).ok).toBe(true)
    expect(again.reader.account('nurse')).toMatchObject({ failures: 0, waitUntil: null })
    // Far more failures than anybody makes: the wait stays at 15 minutes.
    await again.record({ actor: nurse.call.actor, now: later(100) }, (tx) => {
      tx.setFailures(again.reader.account('nurse')?.id ?? 0, 5000, null)
      return { value: null, events: [{ action: 'sign-in', outcome: 'failure' }] }
    })
    await tryAt(again, 100, { code: '000000' })
    expect(again.reader.account('nurse')?.waitUntil).toBe(later(100 + 15 * 60))
    expect((await tryAt(again, 1000, { code: codeAt(nurse.secret, 1000) })).ok).toBe(true)
  } finally {
    await again.close()
  }
})

test('many failures of one address stop passwords alone from there, and neither other addresses nor a second factor', async () => {
  await addPerson(fresh.store, 'plain', 'navigator')
  const failing = (count: number) =>
    fresh.store.record({ actor: nurse.call.actor, now: later(60) }, (tx) => {
      for (let n = 0; n < count; n++) tx.insertFailedTry(ADDRESS, later(60), later(-900))
      return { value: null, events: [{ action: 'sign-in', outcome: 'failure' }] }
    })
  await failing(299)
  expect((await tryAt(fresh.store, 61, { name: 'plain' })).ok).toBe(true)
  await tryAt(fresh.store, 62, { name: 'nobody', password: 'wrong' })
  const refused = await tryAt(fresh.store, 63, { name: 'plain' })
  expect(refused).toEqual(await tryAt(fresh.store, 63, { name: 'nobody' }))
  // Further failures count nothing: the wait ends when the oldest have passed.
  expect(fresh.store.reader.failuresOfAddress(ADDRESS, later(0))).toBe(300)
  expect((await tryAt(fresh.store, 64, { name: 'plain', address: '192.0.2.8' })).ok).toBe(true)
  expect((await withCode(65)).ok).toBe(true)
  expect((await tryAt(fresh.store, 60 + 15 * 60, { name: 'plain' })).ok).toBe(true)
})

test('the log has each try, and of a failed one nothing that was typed', async () => {
  const before = logged(fresh.store).length
  await tryAt(fresh.store, 60, { code: '918273' })
  await withCode(60)
  expect(logged(fresh.store).slice(before)).toEqual([
    { actor: 'nurse', role: 'none', action: 'sign-in', outcome: 'failure' },
    { actor: 'nurse', role: 'navigator', action: 'sign-in', outcome: 'success' },
  ])
  expect(JSON.stringify(rowsOf(fresh.url, 'trail'))).not.toContain('918273')
})
