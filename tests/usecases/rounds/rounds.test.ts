import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { endRound, readRound, readRoundNow, readRounds, startRound } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { answerAll, list, on, takeTwo, wholeRound } from './week.ts'

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await takeTwo(fresh.store, on(fresh.store, '2026-11-02'))
})
afterEach(() => fresh.dispose())

test('one round runs at a time: whoever starts second is told who started it and when, and nothing is written', async () => {
  const { store } = fresh
  expect(granted(await startRound(on(store, '2026-11-09')))).toEqual({ roundId: 1 })
  const head = store.reader.trailHead()
  const second = await startRound(on(store, '2026-11-10', 'physician'))
  expect(second).toMatchObject({ ok: false, kind: 'invalid' })
  expect(!second.ok && second.reason).toMatch(/^Round 1 runs already: a navigator started it, Monday 2026-11-09 \d\d:00\. End it first\.$/)
  expect(store.reader.trailHead()).toEqual(head)
})

test('two who start in the same moment start one round', async () => {
  const { store } = fresh
  const both = await Promise.all([startRound(on(store, '2026-11-09')), startRound(on(store, '2026-11-09', 'physician'))])
  expect(both.map(({ ok }) => ok).toSorted()).toEqual([false, true])
  expect(store.reader.runningRound()?.id).toBe(1)
})

test('a round ends once: whoever ends second is told who did; the next one follows', async () => {
  const { store } = fresh
  expect(await wholeRound(store, '2026-11-09')).toBe(1)
  const second = await endRound(on(store, '2026-11-09', 'physician'), { roundId: 1 })
  expect(!second.ok && second.reason).toMatch(/^Round 1 ended already: a navigator ended it, Monday 2026-11-09/)
  expect(await endRound(on(store, '2026-11-09'), { roundId: 7 })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(granted(await startRound(on(store, '2026-11-16')))).toEqual({ roundId: 2 })
})

test('start and end are in the log, each in the same breath as the round', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  const actions = logged(store).map(({ action, actor }) => `${actor} ${action}`)
  expect(actions.slice(actions.indexOf('a navigator round-started'))).toEqual(['a navigator round-started', 'a navigator round-ended'])
  expect(store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event).toMatchObject({ roundId: 1, followed: 2 })
})

test('what stood open at its end is kept as it was, whatever comes later', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  const atEnd = store.reader.countsAtEnd(1)
  expect(atEnd).toEqual(store.reader.countsNow())
  expect(atEnd.open).toBe(2)
  await answerAll(on(store, '2026-11-10'), 'P1')
  expect(store.reader.countsNow().open).toBe(1)
  expect(store.reader.countsAtEnd(1)).toEqual(atEnd)
})

test('how far it is: done is who was answered and has nothing left open; a running round counts what comes in', async () => {
  const { store } = fresh
  granted(await startRound(on(store, '2026-11-09', 'navigator', '08')))
  expect((await list(on(store, '2026-11-09'))).round.progress).toEqual({ done: 0, of: 2 })
  await answerAll(on(store, '2026-11-09'), 'P1')
  expect((await list(on(store, '2026-11-09', 'physician', '11'))).round.progress).toEqual({ done: 1, of: 2 })
})

test('the summary of a round that ended stays what it was; of one that runs it is how it stands', async () => {
  const { store } = fresh
  granted(await startRound(on(store, '2026-11-09', 'navigator', '08')))
  await answerAll(on(store, '2026-11-09', 'navigator', '09'), 'P1')
  const running = granted(await readRound(on(store, '2026-11-09'), 1))
  expect(running).toMatchObject({ lookedAt: 1, answeredPatients: 1, progress: { done: 1, of: 2 }, open: { open: 1, followed: 2 } })
  granted(await endRound(on(store, '2026-11-09', 'physician', '12'), { roundId: 1 }))
  const ended = granted(await readRound(on(store, '2026-11-09', 'physician', '13'), 1))
  await answerAll(on(store, '2026-11-10'), 'P2')
  expect(granted(await readRound(on(store, '2026-11-11'), 1))).toEqual(ended)
  expect(ended.round).toMatchObject({ startedBy: 'a navigator', endedBy: 'a physician', followed: 2, open: 1 })
  expect(await readRound(on(store, '2026-11-11'), 9)).toMatchObject({ ok: false, kind: 'not-found' })
})

test('the list of rounds is latest first, the running one on top', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  await wholeRound(store, '2026-11-16')
  granted(await startRound(on(store, '2026-11-23')))
  const rounds = granted(await readRounds(on(store, '2026-11-23', 'physician')))
  expect(rounds.map(({ roundId, ended }) => [roundId, ended === null])).toEqual([
    [3, true],
    [2, false],
    [1, false],
  ])
})

test('a clock set back ends a round no sooner than it started', async () => {
  const { store } = fresh
  granted(await startRound(on(store, '2026-11-09', 'navigator', '12')))
  granted(await endRound(on(store, '2026-11-09', 'navigator', '11'), { roundId: 1 }))
  const { startedAt, endedAt } = store.reader.round(1) ?? {}
  expect(endedAt).toBe(startedAt)
})

test('rows of a round are never changed or removed', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  const db = fromOutside(store.url)
  for (const sql of [
    "UPDATE review_round SET started_by = 'x'",
    "UPDATE review_round SET ended_by = 'x'",
    'DELETE FROM review_round',
    'UPDATE round_place SET window_rank = 0',
    'DELETE FROM round_place',
    "UPDATE round_finding SET topic = 'x'",
    'DELETE FROM round_finding',
    "INSERT INTO round_place (round_id, patient_id, window_rank) VALUES (1, 'P9', 0)",
    "INSERT INTO review_round (id, started_by, started_at) VALUES (5, 'x', '2026-11-16T08:00:00.000Z')",
  ]) {
    expect(() => db.exec(sql), sql).toThrow(/never|once|follows/)
  }
  db.close()
  expect(granted(await readRounds(callOf(store)))).toHaveLength(1)
})

test('the counts of a round are those the list shows, before it, while it runs and after it; asking for them leaves no trace', async () => {
  const { store } = fresh
  const same = async (day: string, since: number | null): Promise<unknown> => {
    const call = on(store, day)
    const { round } = await list(call, { since })
    const before = logged(store).length
    const now = granted(await readRoundNow(call, since))
    expect(logged(store)).toHaveLength(before)
    expect(now).toEqual({ runningId: round.runningId, progress: round.progress, handedOver: round.handedOver, news: round.news })
    return now
  }
  expect(await same('2026-11-09', null)).toEqual({ runningId: null, progress: null, handedOver: 0, news: null })
  granted(await startRound(on(store, '2026-11-09')))
  expect(await same('2026-11-09', null)).toMatchObject({ runningId: 1, progress: { done: 0, of: 2 } })
  await answerAll(on(store, '2026-11-09'), 'P1')
  expect(await same('2026-11-09', null)).toMatchObject({ runningId: 1, progress: { done: 1, of: 2 } })
  granted(await endRound(on(store, '2026-11-09'), { roundId: 1 }))
  expect(await same('2026-11-16', 1)).toMatchObject({ runningId: null, progress: null, news: { open: expect.any(Number) } })
})
