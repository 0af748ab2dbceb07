import { afterEach, beforeEach, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import { compareUrgency } from '../../lib/review/index.ts'
import { RULES_VERSION } from '../../lib/rules/index.ts'
import { assess } from '../../lib/standing/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { listDocument, readRenewal, recheck, renewStandings } from '../../lib/usecases/index.ts'
import { fromOutside } from '../store/outside.ts'
import { callOf, granted } from './accounts/persons.ts'
import { COHORT, callAfter, filledStore, takeHighCalcium } from './cohort.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await filledStore())
})
afterEach(() => dispose())

/** Changes the file behind the program's back. */
function tamper(sql: string): void {
  const db = fromOutside(url)
  db.run(sql)
  db.close()
}

test('nothing differs after intake, more intake, and as the days go by', async () => {
  await takeHighCalcium(store)
  for (const days of [0, 1, 4, 15, 31, 60, 92, 366, 5]) {
    expect([days, granted(await recheck(callAfter(store, days)))]).toEqual([days, { patients: COHORT, differences: [] }])
  }
})

test('the next day only those are evaluated whose answer no longer holds', async () => {
  expect(await renewStandings(callOf(store))).toBe(0)
  const before = new Map(store.reader.standings().map((standing) => [standing.patientId, standing]))
  const call = callAfter(store, 20)
  const over = [...before.values()].filter(({ holdsUntil }) => holdsUntil !== null && holdsUntil < call.today).map(({ patientId }) => patientId)
  expect(over.length).toBeGreaterThan(0)
  expect(over.length).toBeLessThan(COHORT)
  expect(await renewStandings(call)).toBe(over.length)
  for (const standing of store.reader.standings()) {
    if (over.includes(standing.patientId)) expect(standing.evaluatedOn).toBe(call.today)
    else expect(standing).toEqual(before.get(standing.patientId))
  }
  expect(await renewStandings(call)).toBe(0)
})

test('how many are still to be renewed is two numbers, counts down, writes nothing and names nobody', async () => {
  const rows = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.sequence
  const nobody = { waiting: 0, of: COHORT }
  expect(granted(await readRenewal(callOf(store, 'quality')))).toEqual(nobody)
  tamper("UPDATE standing SET rules_version = 'older'")
  const before = rows()
  expect(granted(await readRenewal(callOf(store, 'administrator')))).toEqual({ waiting: COHORT, of: COHORT })
  expect(rows()).toBe(before)
  const call = callOf(store)
  const seen: number[] = []
  const renewing = renewStandings(call).then(() => seen.push(-1))
  while (seen.at(-1) !== -1) {
    seen.push(granted(await readRenewal(call)).waiting)
    await new Promise((resolve) => setImmediate(resolve))
  }
  await renewing
  const counted = seen.filter((count) => count >= 0)
  expect(counted).toEqual(counted.toSorted((a, b) => b - a))
  expect(new Set(counted).size).toBeGreaterThan(1)
  expect(granted(await readRenewal(callOf(store, 'navigator')))).toEqual(nobody)
})

test('the log says why standings were renewed', async () => {
  const [one, two] = store.reader.patientIds()
  tamper(`UPDATE standing SET rules_version = 'older' WHERE patient_id = '${one}'`)
  tamper(`UPDATE standing SET plan_version = 'older' WHERE patient_id = '${two}'`)
  expect(await renewStandings(callOf(store))).toBe(2)
  const { rows } = store.reader.trailPage({ actor: null, limit: 2, offset: 0 })
  expect(rows.map(({ event }) => event)).toEqual([
    { action: 'standings-renewed', patients: 1, because: 'plan' },
    { action: 'standings-renewed', patients: 1, because: 'rules' },
  ])
  expect(store.reader.standings().every((kept) => kept.rulesVersion === RULES_VERSION && kept.planVersion === DEFAULT_PLAN.version)).toBe(true)
})

test.each([
  ['answer', `UPDATE standing SET answer = replace(answer, '"why":"', '"why":"Nothing. ') WHERE patient_id = 'P-0001'`],
  ['windowRank', `UPDATE standing SET window_rank = (window_rank + 1) % 5 WHERE patient_id = 'P-0001'`],
  ['followed', `UPDATE standing SET followed = 1 - followed WHERE patient_id = 'P-0001'`],
  ['rules', `INSERT INTO standing_finding (patient_id, rule) VALUES ('P-0001', 'mde-calcium-made-up')`],
  ['holdsUntil', `UPDATE standing SET holds_until = '2099-01-01' WHERE patient_id = 'P-0001'`],
])('a standing changed behind the program in %s is found', async (field, sql) => {
  tamper(sql)
  const { differences } = granted(await recheck(callOf(store)))
  expect(differences).toEqual([{ patientId: 'P-0001', says: `differs in ${field}` }])
})

test('a standing that was taken away is made again', async () => {
  tamper(`DELETE FROM standing WHERE patient_id = 'P-0001'`)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(store.reader.standing('P-0001')?.patientId).toBe('P-0001')
})

test('the list from what is kept is the list evaluated afresh, in the same order', async () => {
  await takeHighCalcium(store)
  for (const days of [0, 40]) {
    const call = callAfter(store, days)
    const { patients } = granted(await listDocument(call, null))
    const fresh = store.reader
      .patientIds()
      .flatMap((id) => store.reader.loadHistory(id)?.history ?? [])
      .map((history) => assess(history, DEFAULT_PLAN, call.today))
      .filter(({ course }) => course.leftOn === null)
      .toSorted(compareUrgency)
    expect(patients.map(({ patientId }) => patientId)).toEqual(fresh.map(({ course }) => course.patient.id))
    // Another day's list is evaluated afresh; asked a day later for this one, it must say the same.
    const later = granted(await listDocument(callAfter(store, days + 1), call.today))
    expect(later.patients).toEqual(patients)
  }
})
