import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { readerOf } from '../../../lib/store/reader.ts'
import { readRound, readRounds, startRound } from '../../../lib/usecases/index.ts'
import { roundNow } from '../../../lib/usecases/rounds/roundNow.ts'
import { counting } from '../../store/counting.ts'
import { freshStore } from '../../store/freshStore.ts'
import { granted } from '../accounts/persons.ts'
import { csv, patientRow, take } from '../clinic.ts'
import { join } from '../merges/joined.ts'
import { answerAll, list, on, takeTwo } from './week.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  const call = on(fresh.store, '2026-11-02')
  await take(fresh.store, [csv('third.csv', [patientRow({ patient_id: 'P3', family_name: 'Two' })])], { call })
  await takeTwo(fresh.store, call)
})
afterEach(() => fresh.dispose())

test('what was answered in a record counts for the one it is joined to since, as long as it is', async () => {
  const { store } = fresh
  granted(await startRound(on(store, '2026-11-09', 'navigator', '08')))
  await answerAll(on(store, '2026-11-09', 'navigator', '09'), 'P2')
  const alone = granted(await readRound(on(store, '2026-11-09', 'navigator', '10'), 1))
  expect(alone).toMatchObject({ answeredPatients: 1, progress: { done: 1, of: 2 } })
  await join(store, 'P2', 'P3', (role) => on(store, '2026-11-09', role, '11'))
  const joined = granted(await readRound(on(store, '2026-11-09', 'navigator', '12'), 1))
  expect(joined).toMatchObject({ answeredPatients: 1, answered: [{ patients: 1 }] })
  expect(granted(await readRounds(on(store, '2026-11-09', 'navigator', '12')))).toMatchObject([{ answeredPatients: 1 }])
  // Both answered: two patients, though the answer of one stands under the number that is joined.
  await answerAll(on(store, '2026-11-09', 'navigator', '13'), 'P1')
  expect((await list(on(store, '2026-11-09', 'navigator', '14'))).round.progress?.done).toBe(2)
  expect(store.reader.answersBetween('2026-11-09T00:00:00.000Z', '2026-11-10T00:00:00.000Z').map(({ patientId }) => patientId)).toContain('P3')
})

test('however many were answered in a round, it is asked for in as many questions', async () => {
  const { store, url } = fresh
  granted(await startRound(on(store, '2026-11-09', 'navigator', '08')))
  const { connection, asked, close } = counting(url, { reading: true })
  const reader = readerOf(connection)
  const call = { ...on(store, '2026-11-09', 'navigator', '20'), store: { ...store, reader } }
  const questions = (): number => asked(() => expect(roundNow(call, null).progress).not.toBe(null))
  try {
    await answerAll(on(store, '2026-11-09', 'navigator', '09'), 'P1')
    const afterOne = questions()
    await answerAll(on(store, '2026-11-09', 'navigator', '10'), 'P2')
    expect(questions()).toBe(afterOne)
  } finally {
    close()
  }
})
