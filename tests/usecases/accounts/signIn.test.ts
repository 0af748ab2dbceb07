import { createHash } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { disableAccount } from '../../../lib/usecases/accounts/disableAccount.ts'
import { readSession } from '../../../lib/usecases/sessions/readSession.ts'
import { signIn } from '../../../lib/usecases/sessions/signIn.ts'
import { signOut } from '../../../lib/usecases/sessions/signOut.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from './persons.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await addPerson(fresh.store, 'nurse', 'navigator')
})
afterEach(() => fresh.dispose())

function tryAt(seconds: number, password = PASSWORD, name = 'nurse') {
  return signIn(fresh.store, { name, password }, { now: new Date(later(seconds)), requestId: 'r', address: '127.0.0.1' })
}

test('the right password signs in, and the log says who and in which session', async () => {
  const { sessionId, name, role } = granted(await tryAt(0))
  expect([name, role]).toEqual(['nurse', 'navigator'])
  const session = await readSession(fresh.store, sessionId, { now: new Date(later(1)) })
  const hash = createHash('sha256').update(sessionId).digest('hex')
  expect(session).toEqual({ name: 'nurse', role: 'navigator', sessionHash: hash, means: 'password' })
  const { rows } = fresh.store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
  expect(rows[0]).toMatchObject({ actor: 'nurse', role: 'navigator', sessionHash: hash, address: '127.0.0.1', action: 'sign-in', outcome: 'success' })
})

test('what the browser holds is nowhere in the database', async () => {
  const { sessionId } = granted(await tryAt(0))
  const kept = rowsOf(fresh.url, 'session')
  expect(kept).toHaveLength(1)
  expect(JSON.stringify(kept)).not.toContain(sessionId)
})

test('the password is kept as Argon2id with the parameters of OWASP', () => {
  expect(fresh.store.reader.account('nurse')?.passwordHash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/)
})

test('unknown name, wrong password, disabled account and a wait answer alike', async () => {
  await addPerson(fresh.store, 'gone', 'navigator')
  granted(await disableAccount(callOf(fresh.store), { name: 'gone' }))
  const answers = [await tryAt(0, PASSWORD, 'nobody'), await tryAt(0, 'wrong'), await tryAt(0, PASSWORD, 'gone')]
  for (let n = 0; n < 5; n++) answers.push(await tryAt(0, 'wrong'))
  answers.push(await tryAt(0))
  expect(answers[0]).toMatchObject({ ok: false, kind: 'not-allowed' })
  for (const answer of answers) expect(answer).toEqual(answers[0])
})

test("a typed name that is no account's is not written down", async () => {
  await tryAt(0, 'x', 'my password typed here')
  expect(logged(fresh.store).at(-1)).toEqual({ actor: '(unknown name)', role: 'none', action: 'sign-in', outcome: 'failure' })
  expect(JSON.stringify(rowsOf(fresh.url, 'trail'))).not.toContain('typed here')
})

test('the work done is the same whether the name is known or not', async () => {
  await tryAt(0, 'warm', 'nobody')
  const time = async (name: string): Promise<number> => {
    const began = performance.now()
    for (let n = 0; n < 4; n++) await tryAt(0, 'wrong', name)
    return performance.now() - began
  }
  const [known, unknown] = [await time('nurse'), await time('nobody')]
  // Without the dummy verification an unknown name answers more than ten times faster.
  expect(unknown / known).toBeGreaterThan(0.4)
})

test('waits grow with failures, end by themselves, and a success clears them', async () => {
  for (let n = 0; n < 5; n++) await tryAt(0, 'wrong')
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 5, waitUntil: later(30) })
  expect((await tryAt(29)).ok).toBe(false)
  // A try during the wait does not lengthen it.
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 5, waitUntil: later(30) })
  await tryAt(30, 'wrong')
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 6, waitUntil: later(90) })
  expect((await tryAt(90)).ok).toBe(true)
  expect(fresh.store.reader.account('nurse')).toMatchObject({ failures: 0, waitUntil: null })
})

test('many tries at once do not get round the wait', async () => {
  const answers = await Promise.all([...Array.from({ length: 12 }, () => tryAt(0, 'wrong')), tryAt(1)])
  expect(answers.filter((answer) => answer.ok).length).toBeLessThanOrEqual(1)
  expect(fresh.store.reader.account('nurse')?.failures).toBeLessThanOrEqual(5)
})

test('a session ends after 15 idle minutes', async () => {
  const { sessionId } = granted(await tryAt(0))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(15 * 60 - 1)) })).toMatchObject({ name: 'nurse' })
  await fresh.store.touchSession('no such session', later(0))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(30 * 60 - 1)) })).toBe(null)
})

test('signs of life keep a session, for 12 hours at most', async () => {
  const { sessionId } = granted(await tryAt(0))
  const TEN_MINUTES = 600
  for (let at = TEN_MINUTES; at < 12 * 3600; at += TEN_MINUTES) {
    expect(await readSession(fresh.store, sessionId, { now: new Date(later(at)) })).toMatchObject({ name: 'nurse' })
    // The sign of life is written without anybody waiting for it; the next write comes after it.
    await fresh.store.touchSession('no such session', later(at))
  }
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(12 * 3600)) })).toBe(null)
})

test('a sign of life is written at most once a minute, without a log row', async () => {
  const { sessionId } = granted(await tryAt(0))
  const rows = logged(fresh.store).length
  const lastSeen = async (at: number): Promise<string | undefined> => {
    await readSession(fresh.store, sessionId, { now: new Date(later(at)) })
    await fresh.store.touchSession('no such session', later(at))
    return fresh.store.reader.openSessions(later(0))[0]?.lastSeenAt
  }
  expect([await lastSeen(59), await lastSeen(60), await lastSeen(100)]).toEqual([later(0), later(60), later(60)])
  expect(logged(fresh.store)).toHaveLength(rows)
})

test('signing out ends the session at once, and only the own one', async () => {
  const { sessionId } = granted(await tryAt(0))
  const other = granted(await tryAt(0)).sessionId
  const session = await readSession(fresh.store, sessionId, { now: new Date(later(1)) })
  const call = {
    ...callOf(fresh.store),
    actor: { name: 'nurse', role: 'navigator', sessionHash: session?.sessionHash ?? '', address: null, requestId: 'r' },
  } as const
  expect(await signOut(call, other)).toMatchObject({ ok: false, kind: 'not-allowed' })
  granted(await signOut(call, sessionId))
  expect(await readSession(fresh.store, sessionId, { now: new Date(later(2)) })).toBe(null)
  expect(await readSession(fresh.store, other, { now: new Date(later(2)) })).toMatchObject({ name: 'nurse' })
  expect(logged(fresh.store).at(-1)).toMatchObject({ actor: 'nurse', action: 'sign-out' })
})
