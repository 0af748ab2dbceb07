import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { recheck } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, patientRow, take } from '../clinic.ts'
import { answerAll, day, list, on, takeTwo, takeValue, wholeRound, whom } from './week.ts'

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await takeTwo(fresh.store, on(fresh.store, '2026-11-02'))
})
afterEach(() => fresh.dispose())

const NEWS = ['new', 'came-back', 'waiting'] as const

async function byNews(store: Store, day: string, since: number | null = null) {
  const call = on(store, day)
  const [isNew, back, waiting] = await Promise.all(NEWS.map((news) => whom(call, { news, since, sort: 'patient' })))
  const { news } = (await list(call, { since })).round
  expect(news).toMatchObject({ isNew: isNew?.length, cameBack: back?.length })
  expect((news?.open ?? 0) - (news?.either ?? 0)).toBe(waiting?.length)
  return { isNew, back, waiting }
}

test('while no round has ended nothing is called new, and the filters narrow nothing', async () => {
  const { store } = fresh
  const shown = await list(on(store, '2026-11-09'), { news: 'new' })
  expect(shown.round).toMatchObject({ since: null, news: null })
  expect(shown.rows.map(({ round }) => round?.since)).toEqual([null, null])
})

test('right after a round nothing is new: all that is open waits', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  expect(await byNews(store, '2026-11-09')).toEqual({ isNew: [], back: [], waiting: ['P1', 'P2'] })
})

test('what came in since is new, and told as sooner; the other patient waits', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  await takeValue(on(store, '2026-11-11'), 'P1', '2026-11-10', '60', { code: '718-7' })
  expect(await byNews(store, '2026-11-11')).toEqual({ isNew: ['P1'], back: [], waiting: ['P2'] })
  const row = (await list(on(store, '2026-11-11'))).rows[0]
  expect(row).toMatchObject({ patientId: 'P1', window: 'same-day', round: { since: { isNew: true, back: [], windowThen: 'within-7-days' } } })
})

test('what was answered comes back when its day is reached', async () => {
  const { store } = fresh
  await answerAll(on(store, '2026-11-05'), 'P1', day('2026-11-12'))
  await wholeRound(store, '2026-11-09')
  expect(await byNews(store, '2026-11-11')).toEqual({ isNew: [], back: [], waiting: ['P2'] })
  expect(await byNews(store, '2026-11-12')).toEqual({ isNew: ['P1'], back: ['P1'], waiting: ['P2'] })
  const row = (await list(on(store, '2026-11-12'))).rows.find(({ patientId }) => patientId === 'P1')
  expect(row?.round?.since).toMatchObject({ isNew: true, back: ['day'] })
})

test('answered after the round and back before the next: it came back, and is not new, for it was open then', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  await answerAll(on(store, '2026-11-10'), 'P1', day('2026-11-13'))
  expect(await byNews(store, '2026-11-13')).toEqual({ isNew: [], back: ['P1'], waiting: ['P2'] })
})

test('new evidence brings back what was answered', async () => {
  const { store } = fresh
  await takeValue(on(store, '2026-11-03'), 'P1', '2026-11-02', '25.0')
  await answerAll(on(store, '2026-11-05'), 'P1')
  await wholeRound(store, '2026-11-09')
  await takeValue(on(store, '2026-11-11'), 'P1', '2026-11-10', '28.0')
  const row = (await list(on(store, '2026-11-11'), { news: 'came-back' })).rows[0]
  expect(row).toMatchObject({ patientId: 'P1', round: { since: { isNew: true, back: ['evidence'] } } })
})

test('a correction brings back what was answered, and it is said to be corrected', async () => {
  const { store } = fresh
  await takeValue(on(store, '2026-11-03'), 'P1', '2026-11-02', '25.0')
  await answerAll(on(store, '2026-11-05'), 'P1')
  await wholeRound(store, '2026-11-09')
  await takeValue(on(store, '2026-11-11'), 'P1', '2026-11-02', '26.0', { status: 'corrected', reported_at: '2026-11-11' })
  const row = (await list(on(store, '2026-11-11'), { news: 'came-back' })).rows[0]
  expect(row).toMatchObject({ patientId: 'P1', round: { since: { back: ['corrected'] } } })
})

test('a patient who is followed since is new, and was nowhere at the last round', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  await take(store, [csv('more.csv', [patientRow({ patient_id: 'P3' })])], { call: on(store, '2026-11-10') })
  await takeValue(on(store, '2026-11-10'), 'P3', '2026-11-01', '10.0')
  const row = (await list(on(store, '2026-11-10'), { news: 'new' })).rows[0]
  expect(row).toMatchObject({ patientId: 'P3', round: { since: { isNew: true, windowThen: null } } })
})

test('an earlier round can be chosen; one that never was, or that runs, means the last', async () => {
  const { store } = fresh
  await wholeRound(store, '2026-11-09')
  await takeValue(on(store, '2026-11-11'), 'P1', '2026-11-10', '25.0')
  await wholeRound(store, '2026-11-16')
  expect((await byNews(store, '2026-11-16')).isNew).toEqual([])
  expect((await byNews(store, '2026-11-16', 1)).isNew).toEqual(['P1'])
  expect((await list(on(store, '2026-11-16'), { since: 99 })).round.since?.roundId).toBe(2)
})

test('how long it waits: since it was first on the list, whatever evidence came since, and from anew once it was answered', async () => {
  const { store } = fresh
  const seenOn = async (day: string) => (await list(on(store, day))).rows.find(({ patientId }) => patientId === 'P1')?.round
  await takeValue(on(store, '2026-11-03'), 'P1', '2026-11-01', '25.0')
  await answerAll(on(store, '2026-11-03'), 'P2')
  expect(await seenOn('2026-11-10')).toMatchObject({ seenOn: '2026-11-02', daysOnList: 8 })
  await takeValue(on(store, '2026-11-11'), 'P1', '2026-11-10', '28.0')
  expect(await seenOn('2026-11-12')).toMatchObject({ seenOn: '2026-11-02' })
  await answerAll(on(store, '2026-11-12'), 'P1', day('2026-11-14'))
  expect((await seenOn('2026-11-13'))?.seenOn).toBe(null)
  expect(await seenOn('2026-11-15')).toMatchObject({ seenOn: '2026-11-15', daysOnList: 0 })
  expect(granted(await recheck(callOf(store, 'console', '2026-11-15T10:00:00.000Z'))).differences).toEqual([])
})

test('sorted by how long they have been on the list, longest first, or the other way round', async () => {
  const { store } = fresh
  await answerAll(on(store, '2026-11-03'), 'P1', day('2026-11-05'))
  await list(on(store, '2026-11-06'))
  expect(await whom(on(store, '2026-11-07'), { sort: 'listed' })).toEqual(['P2', 'P1'])
  expect(await whom(on(store, '2026-11-07'), { sort: 'listed', descending: true })).toEqual(['P1', 'P2'])
})
