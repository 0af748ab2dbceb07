import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Window } from '../../lib/rules/index.ts'
import type { StandingQuery, StandingRow, Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { freshStore } from './freshStore.ts'
import { addPatient, CALL } from './samples.ts'

const ON_SCHEDULE = {
  historyRevision: 0,
  followed: true,
  rulesVersion: '1',
  planVersion: 'p',
  evaluatedOn: day('2026-11-20'),
  holdsUntil: day('2026-11-30'),
  windowRank: 4,
  stateRank: 3,
  organRank: 1,
  since: null,
  excess: 1,
  nextDueOn: null,
  phase: 'active',
  care: null,
  clinician: null,
  rule: null,
  state: null,
  window: 'on-schedule',
  answer: '{}',
  rules: [],
  open: [],
  comesBackTo: [],
} as const

const KEPT: readonly (Partial<StandingRow> & { patientId: string })[] = [
  { patientId: 'A', nextDueOn: day('2027-01-01') },
  {
    patientId: 'B',
    window: 'same-day',
    windowRank: 0,
    stateRank: 0,
    organRank: 0,
    since: day('2026-11-02'),
    rules: ['danger-calcium'],
    clinician: 'K',
  },
  { patientId: 'C', window: 'same-day', windowRank: 0, stateRank: 0, organRank: 0, since: day('2026-11-01'), rules: ['danger-calcium', 'overdue'] },
  {
    patientId: 'D',
    window: 'same-day',
    windowRank: 0,
    stateRank: 0,
    organRank: 0,
    since: day('2026-11-01'),
    excess: 2.5,
    rules: ['danger-kidney'],
    phase: 'mgus',
  },
  {
    patientId: 'E',
    window: 'same-day',
    windowRank: 0,
    stateRank: 0,
    organRank: 0,
    since: day('2020-01-01'),
    followed: false,
    phase: 'amyloidosis',
    rules: ['mde-bone'],
  },
  { patientId: 'F', window: 'within-7-days', windowRank: 1, since: day('2026-01-01'), nextDueOn: day('2026-12-01'), clinician: 'K' },
]

let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await fresh.store.record(CALL, (tx) => {
    for (const kept of KEPT) {
      addPatient(tx, kept.patientId)
      tx.saveStanding({ ...ON_SCHEDULE, ...kept })
    }
    return { value: null, events: [{ action: 'standings-renewed', patients: KEPT.length, because: 'day' }] }
  })
})
afterEach(() => fresh.dispose())

const ALL: StandingQuery = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 10 }

test.each<[string, Partial<StandingQuery>, string]>([
  ['urgency: window, state, organ, since, excess', {}, 'DCBFA'],
  ['longest waiting first, those who do not wait last', { sort: 'waiting' }, 'FCDBA'],
  ['shortest waiting first, those who do not wait last', { sort: 'waiting', descending: true }, 'BCDFA'],
  ['next due first', { sort: 'next-due' }, 'FABCD'],
  ['by patient, backwards', { sort: 'patient', descending: true }, 'FDCBA'],
  ['one window', { window: 'same-day' }, 'DCB'],
  ['one phase', { phase: 'mgus' }, 'D'],
  ['one clinician', { clinician: 'K' }, 'BF'],
  ['one finding', { rule: 'danger-calcium' }, 'CB'],
  ['two filters', { rule: 'danger-calcium', clinician: 'K' }, 'B'],
  ['the second page of two', { pageSize: 2, page: 2 }, 'BF'],
])('%s', (_, query, order) => {
  expect(
    fresh.store.reader
      .standingsPage({ ...ALL, ...query })
      .rows.map((row) => row.patientId)
      .join(''),
  ).toBe(order)
})

test('the page says how many match beyond it', () => {
  expect(fresh.store.reader.standingsPage({ ...ALL, pageSize: 1 }).matching).toBe(5)
})

test('filters and counts know only those followed', () => {
  const windows: Record<Window, number> = { 'same-day': 3, 'within-7-days': 1, 'within-30-days': 0, 'next-visit': 0, 'on-schedule': 1 }
  expect(fresh.store.reader.listFacets()).toEqual({
    byWindow: windows,
    followed: 5,
    phases: ['active', 'mgus'],
    clinicians: ['K'],
    rules: ['danger-calcium', 'danger-kidney', 'overdue'],
  })
})

test('a saved standing comes back whole, and saving again replaces it', async () => {
  const again: StandingRow = { ...ON_SCHEDULE, patientId: 'C', rules: ['pd-serum'], care: 'maintenance' }
  await fresh.store.record(CALL, (tx) => ({ value: tx.saveStanding(again), events: [{ action: 'standings-renewed', patients: 1, because: 'day' }] }))
  expect(fresh.store.reader.standing('C')).toEqual(again)
})

test.each([
  ['inside its span', { today: day('2026-11-30'), rulesVersion: '1', planVersion: 'p' }, ''],
  ['past its span', { today: day('2026-12-01'), rulesVersion: '1', planVersion: 'p' }, 'ABCDEF'],
  ['before it was evaluated', { today: day('2026-11-19'), rulesVersion: '1', planVersion: 'p' }, 'ABCDEF'],
  ['other rules', { today: day('2026-11-25'), rulesVersion: '2', planVersion: 'p' }, 'ABCDEF'],
  ['another plan', { today: day('2026-11-25'), rulesVersion: '1', planVersion: 'q' }, 'ABCDEF'],
  ['rules of before', { today: day('2026-11-25'), rulesVersion: '0', planVersion: 'p' }, 'ABCDEF'],
  ['a plan of before', { today: day('2026-11-25'), rulesVersion: '1', planVersion: 'o' }, 'ABCDEF'],
])('%s', (_, versions, stale) => {
  expect(fresh.store.reader.staleStandings(versions).join('')).toBe(stale)
})

test('a history that moved on makes only its own standing stale', async () => {
  await fresh.store.record(CALL, (tx) => ({ value: tx.bumpRevision('B'), events: [{ action: 'patient-opened', patientId: 'B' }] }))
  expect(fresh.store.reader.staleStandings({ today: day('2026-11-25'), rulesVersion: '1', planVersion: 'p' })).toEqual(['B'])
})

test('whoever has no standing is stale until there is one, and again once it is taken away', async () => {
  const versions = { today: day('2026-11-25'), rulesVersion: '1', planVersion: 'p' } as const
  const events = [{ action: 'standings-renewed', patients: 1, because: 'day' }] as const
  await fresh.store.record(CALL, (tx) => ({ value: tx.removeStanding('A'), events }))
  expect(fresh.store.reader.staleStandings(versions)).toEqual(['A'])
  await fresh.store.record(CALL, (tx) => ({ value: tx.saveStanding({ ...ON_SCHEDULE, patientId: 'A' }), events }))
  expect(fresh.store.reader.staleStandings(versions)).toEqual([])
})
