import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { recheck, renewStandings } from '../../lib/usecases/index.ts'
import { fromOutside } from '../store/outside.ts'
import { callOf, granted } from './accounts/persons.ts'
import { COHORT, filledStore, takeHighCalcium } from './cohort.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await filledStore())
})
afterEach(async () => {
  await dispose()
})

/** Changes the file behind the program's back. */
function tamper(sql: string): void {
  const db = fromOutside(url)
  db.run(sql)
  db.close()
}

const OLDER = "UPDATE standing SET rules_version = 'older'"
/** Patients whose standings the log says were renewed. */
const renewed = () =>
  store.reader
    .trailPage({ actor: null, limit: 100, offset: 0 })
    .rows.reduce((sum, { event }) => sum + (event.action === 'standings-renewed' ? event.patients : 0), 0)

test('standings renewed by processes apart are those renewed here, each once', async () => {
  const kept = store.reader.standings()
  const already = renewed()
  tamper(OLDER)
  expect(await renewStandings(callOf(store), 0)).toBe(COHORT)
  expect(store.reader.standings()).toEqual(kept)
  expect(renewed() - already).toBe(COHORT)
})

test('a fresh evaluation by processes apart finds what one here finds', async () => {
  const [, second = '', third = ''] = store.reader.patientIds()
  tamper(`UPDATE standing SET window_rank = (window_rank + 1) % 5 WHERE patient_id IN ('${second}', '${third}')`)
  const apart = granted(await recheck(callOf(store), undefined, 0))
  expect(apart).toEqual({ patients: COHORT, differences: [second, third].map((patientId) => ({ patientId, says: 'differs in windowRank' })) })
  expect(granted(await recheck(callOf(store)))).toEqual(apart)
})

test('where no process apart can open the database, all is renewed here', async () => {
  const nowhere: Store = { ...store, url: 'file:./package.json/nowhere.db' }
  tamper(OLDER)
  expect(await renewStandings(callOf(nowhere), 0)).toBe(COHORT)
  expect(await renewStandings(callOf(store))).toBe(0)
})

test('two who come at once wait for one renewal', async () => {
  const already = renewed()
  tamper(OLDER)
  const counts = await Promise.all([renewStandings(callOf(store)), renewStandings(callOf(store))])
  expect(counts).toEqual([COHORT, 0])
  expect(renewed() - already).toBe(COHORT)
})

test('what arrives while a patient is worked out is in what is kept', async () => {
  tamper(OLDER)
  let arrived: string | null = null
  const meanwhile: Store = {
    ...store,
    async record(by, change) {
      // Between working out and keeping.
      arrived ??= await takeHighCalcium(store)
      return store.record(by, change)
    },
  }
  await renewStandings({ ...callOf(store), store: meanwhile })
  expect(store.reader.standing(arrived ?? '')).toMatchObject({ rule: 'danger-calcium', window: 'same-day' })
  expect(await renewStandings(callOf(store))).toBe(0)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})
