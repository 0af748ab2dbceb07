import { afterEach, beforeEach, expect, test } from 'vitest'
import { PLAN_CHOICES } from '../../lib/plan/index.ts'
import { RULES_VERSION } from '../../lib/rules/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { addDays, day } from '../../lib/time/index.ts'
import {
  acceptFiles,
  listDocument,
  openPatient,
  patientDocument,
  proposePlan,
  publishPlan,
  recheck,
  renewApart,
  renewStandings,
  showList,
  tryPlan,
  tryPlanApart,
} from '../../lib/usecases/index.ts'
import { callOf, granted } from './accounts/persons.ts'
import { csv, resultRow } from './clinic.ts'
import { callAfter, filledStore } from './cohort.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await filledStore())
})
afterEach(async () => {
  await dispose()
})

const TODAY = day('2026-11-25')
/** Everybody on treatment twice a month, everybody else twice as often, no grace: enough to move many. */
const OFTEN = {
  'treatment.0.every': { days: 14 },
  'untreated.0.every': { days: 28 },
  'mgus-low.1.every': { months: 6 },
  'mgus-other.1.every': { months: 6 },
  'smouldering-low.2.every': { months: 3 },
  'grace.percent': 0,
}
const ids = PLAN_CHOICES.map(({ id }) => id)
/** Once in five years wherever a step has no end: nobody is late any more. */
const SELDOM = Object.fromEntries(
  ids.filter((id) => id.endsWith('.every') && !ids.includes(id.replace('every', 'until'))).map((id) => [id, { months: 60 }]),
)

async function publish(changes: Readonly<Record<string, unknown>>, from = TODAY, basedOn = 1): Promise<number> {
  const { version } = granted(await proposePlan(callOf(store, 'physician'), { changes, from, basedOn, note: 'a test' }))
  granted(await publishPlan(callOf(store, 'administrator'), { version, from }))
  return version
}

const windows = () => new Map(store.reader.standings().flatMap(({ patientId, window, followed }) => (followed ? [[patientId, window] as const] : [])))

test.each([
  ['more often', OFTEN, 0],
  ['more seldom', SELDOM, 0],
  ['more often, from a later day on', OFTEN, 17],
])('what a trial shows is what happens after publication: %s', async (_, changes, ahead) => {
  const from = addDays(TODAY, ahead)
  const wish = { changes, from, basedOn: 1 }
  const tried = granted(await tryPlan(callOf(store, 'physician'), { kind: 'changes', wish }))
  const call = callAfter(store, ahead)
  await renewStandings(call)
  const old = windows()
  await publish(changes, from)
  await renewStandings(call)
  const now = windows()
  const moved = [...old].filter(([patientId, window]) => now.get(patientId) !== window)
  expect(moved.length).toBeGreaterThan(0)
  expect(tried).toMatchObject({ evaluated: old.size, changed: moved.length })
  const told = (tried.patients ?? []).map(({ patientId, before: was, after }) => [patientId, was, after])
  expect(told.toSorted()).toEqual(moved.map(([patientId, window]) => [patientId, window, now.get(patientId)]).toSorted())
  for (const [patientId, window] of old) {
    const pair = tried.counts.find((count) => count.before === window && count.after === now.get(patientId))
    const many = [...old].filter(([other, same]) => same === window && now.get(other) === now.get(patientId)).length
    expect(pair?.patients).toBe(many)
  }
  const sentences = new Map(granted(await listDocument(call, null)).patients.map(({ patientId, why }) => [patientId, why]))
  for (const { patientId, whyAfter } of tried.patients ?? []) expect(whyAfter).toBe(sentences.get(patientId))
})

test('a published version renews everybody, and a fresh evaluation finds no difference', async () => {
  await publish(OFTEN)
  const call = callOf(store)
  expect(await renewStandings(call)).toBe(store.reader.patientIds().length)
  expect(store.reader.standings().every((kept) => kept.planVersion === '2' && kept.rulesVersion === RULES_VERSION)).toBe(true)
  expect(await renewStandings(call)).toBe(0)
  expect(granted(await recheck(call)).differences).toEqual([])
  const { rows } = store.reader.trailPage({ actor: null, limit: 3, offset: 0 })
  expect(rows.map(({ event }) => event)).toContainEqual({ action: 'standings-renewed', patients: 15, because: 'plan' })
})

test('a version of a later day changes nothing before it, and everything on it', async () => {
  const from = addDays(TODAY, 30)
  await publish(OFTEN, from)
  expect(await renewStandings(callOf(store))).toBe(0)
  for (const days of [0, 1, 29, 30, 31, 29]) {
    const call = callAfter(store, days)
    expect([days, granted(await recheck(call)).differences]).toEqual([days, []])
    const versions = new Set(store.reader.standings().map(({ planVersion }) => planVersion))
    expect([days, [...versions]]).toEqual([days, [days < 30 ? '1' : '2']])
  }
})

test('lists and patients of a past day follow the plan of that day', async () => {
  const past = granted(await listDocument(callOf(store), null))
  expect(past.planVersion).toBe('1')
  const someone = past.patients[0]?.patientId ?? ''
  const patientThen = granted(await patientDocument(callOf(store), someone, null))
  await publish(SELDOM, addDays(TODAY, 1))
  const call = callAfter(store, 1)
  expect(granted(await listDocument(call, null)).planVersion).toBe('2')
  expect(
    granted(
      await showList(call, { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 5 }),
    ).planVersion,
  ).toBe('2')
  expect(granted(await listDocument(call, TODAY))).toEqual(past)
  expect(granted(await patientDocument(call, someone, TODAY))).toEqual(patientThen)
})

test('intake and the patient page follow the plan in force', async () => {
  await publish({ 'untreated.0.every': { months: 2 }, 'treatment.0.every': { months: 2 } })
  await renewStandings(callOf(store))
  const due = async (id: string) => granted(await openPatient(callOf(store, 'physician'), id)).due
  const active = store.reader.standings().filter(({ phase, followed }) => followed && phase === 'active')
  for (const { patientId } of active) {
    const becauses = (await due(patientId)).filter(({ group }) => group === 'blood-count').map(({ because }) => because)
    expect([patientId, becauses]).toEqual([patientId, [expect.stringMatching(/: 2 months .+; \(this clinic\)$/)]])
  }
  const [patientId = ''] = active.map((kept) => kept.patientId)
  const row = resultRow({ patient_id: patientId, code: '718-7', value: '121', unit: 'g/L', collected_at: '2026-11-24', accession: 'new' })
  granted(await acceptFiles(callOf(store), [csv('new.csv', [row])], { source: null, dryRun: false }))
  expect(store.reader.standing(patientId)?.planVersion).toBe('2')
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('a process apart tries the same, tells how far it is, and this one answers meanwhile', async () => {
  const wish = { kind: 'changes', wish: { changes: OFTEN, from: TODAY, basedOn: 1 } } as const
  const here = granted(await tryPlan(callOf(store, 'physician'), wish))
  const told: unknown[] = []
  let turns = 0
  const turning = setInterval(() => {
    turns += 1
  }, 5)
  const there = granted(await tryPlanApart(callOf(store, 'physician'), wish, (progress) => told.push(progress)))
  clearInterval(turning)
  expect(there).toEqual(here)
  expect(told).toContainEqual({ step: 'patients evaluated under both plans', done: 25, of: 40 })
  expect(turns).toBeGreaterThan(20)
})

test('a process apart renews what a publication made stale', async () => {
  await publish(OFTEN)
  await renewApart(callOf(store, 'administrator'))
  expect(await renewStandings(callOf(store))).toBe(0)
  expect(store.reader.standings().every(({ planVersion }) => planVersion === '2')).toBe(true)
})

test('a refused trial starts no process', async () => {
  const asked = callOf(store, 'physician')
  const nowhere = { ...asked, store: { ...store, url: 'file:./package.json/nowhere.db' } }
  const wish = { kind: 'changes', wish: { changes: {}, from: TODAY, basedOn: 1 } } as const
  expect(await tryPlanApart(nowhere, wish, () => undefined)).toMatchObject({ ok: false, kind: 'invalid' })
  const real = { kind: 'changes', wish: { changes: OFTEN, from: TODAY, basedOn: 1 } } as const
  expect(await tryPlanApart(nowhere, real, () => undefined)).toMatchObject({
    ok: false,
    kind: 'unavailable',
    reason: expect.stringContaining('The patients could not be evaluated'),
  })
})
