import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { disableAccount, sessionEnds, signIn, signOfLife } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { addPerson, callOf, granted, later, logged, PASSWORD } from '../accounts/persons.ts'

const MINUTE = 60
const HOUR = 60 * MINUTE
const at = (seconds: number) => ({ now: new Date(later(seconds)) })

let fresh: { store: Store; dispose: () => Promise<void> }
let sessionId = ''
beforeEach(async () => {
  fresh = await freshStore()
  await addPerson(fresh.store, 'nurse', 'navigator')
  sessionId = granted(await signIn(fresh.store, { name: 'nurse', password: PASSWORD }, { ...at(0), requestId: 'r', address: null })).sessionId
})
afterEach(() => fresh.dispose())

const left = (seconds: number) => {
  const ends = sessionEnds(fresh.store, sessionId, at(seconds))
  return ends === null ? null : [ends.idleMs / 1000, ends.longestMs / 1000]
}

test('asking when the session ends keeps nothing alive, however often', () => {
  for (let minute = 0; minute < 15; minute++) expect(left(minute * MINUTE)).toEqual([(15 - minute) * MINUTE, 12 * HOUR - minute * MINUTE])
  expect(left(15 * MINUTE - 1)).toEqual([1, 12 * HOUR - 15 * MINUTE + 1])
  expect(left(15 * MINUTE)).toBeNull()
})

test('a sign of life moves the idle end and never the longest one, and leaves no entry', async () => {
  const rows = logged(fresh.store).length
  for (let minute = 10; minute < 12 * 60; minute += 10) {
    expect(await signOfLife(fresh.store, sessionId, at(minute * MINUTE))).toEqual({
      name: 'nurse',
      role: 'navigator',
      idleMs: 15 * MINUTE * 1000,
      longestMs: (12 * HOUR - minute * MINUTE) * 1000,
    })
  }
  expect(await signOfLife(fresh.store, sessionId, at(12 * HOUR - 1))).toMatchObject({ longestMs: 1000 })
  expect(await signOfLife(fresh.store, sessionId, at(12 * HOUR))).toBeNull()
  expect(left(12 * HOUR)).toBeNull()
  expect(logged(fresh.store)).toHaveLength(rows)
})

test('a sign of life is written at most once a minute, and none after the end', async () => {
  expect(await signOfLife(fresh.store, sessionId, at(59))).toMatchObject({ idleMs: (15 * MINUTE - 59) * 1000 })
  expect(await signOfLife(fresh.store, sessionId, at(60))).toMatchObject({ idleMs: 15 * MINUTE * 1000 })
  expect(await signOfLife(fresh.store, sessionId, at(16 * MINUTE))).toBeNull()
  expect(fresh.store.reader.openSessions(later(0))[0]?.lastSeenAt).toBe(later(60))
})

test('a clock put right by a little makes nothing longer than its limit; one set back by more ends the session', () => {
  expect(left(-3 * MINUTE)).toEqual([15 * MINUTE, 12 * HOUR])
  expect(left(-HOUR)).toBeNull()
})

test('of a disabled account, and of what nobody holds, nothing is told', async () => {
  expect(sessionEnds(fresh.store, 'made up', at(1))).toBeNull()
  granted(await disableAccount(callOf(fresh.store, 'console', later(1)), { name: 'nurse' }))
  expect(left(2)).toBeNull()
  expect(await signOfLife(fresh.store, sessionId, at(2))).toBeNull()
})
