import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { NewDecision, Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { addPatient, CALL, newResult } from './samples.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let db: Outside
beforeEach(async () => {
  fresh = await freshStore()
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    tx.insertResultVersion(newResult('P1', fileId, '2026-01-01'), true)
    return { value: null, events: [{ action: 'patient-opened', patientId: 'P1' }] }
  })
  db = fromOutside(fresh.url)
})
afterEach(async () => {
  db.close()
  await fresh.dispose()
})

const MADE = { patientId: 'P1', at: CALL.now, on: day('2026-11-25'), by: 'a physician', text: 'Über — "so", 2 × 3 ≥ 5; 血' }
const KEY = '["mde-renal","","met","certain","within-7-days",[["current",1]],[]]'
const DECISIONS: readonly NewDecision[] = [
  { ...MADE, kind: 'review', rule: 'mde-renal', key: KEY, bringBackOn: day('2026-11-26') },
  {
    ...MADE,
    kind: 'attribution',
    rule: 'mde-renal',
    key: KEY,
    shownOn: day('2026-11-20'),
    values: [{ analyte: 'creatinine', value: '200.5' }],
  },
  { ...MADE, kind: 'attribution-withdrawn', attributionId: 2 },
  { ...MADE, kind: 'exclusion', resultId: 1 },
  { ...MADE, kind: 'restoration', resultId: 1 },
  { ...MADE, kind: 'handover', rule: 'mde-renal', key: KEY, text: '' },
  { ...MADE, kind: 'review', rule: 'mde-renal', key: KEY, bringBackOn: day('2026-11-26'), did: 'repeat-ordered', handoverId: 6, text: '' },
  { ...MADE, kind: 'answer-withdrawn', answerId: 7, text: '' },
]

async function insertAll(): Promise<number[]> {
  return fresh.store.record(CALL, (tx) => ({
    value: DECISIONS.map((decision) => tx.insertDecision(decision)),
    events: [{ action: 'patient-opened', patientId: 'P1' }],
  }))
}

test('every decision comes back as it was made, numbered 1, 2, 3', async () => {
  expect(await insertAll()).toEqual([1, 2, 3, 4, 5, 6, 7, 8])
  const stored = fresh.store.reader.loadHistory('P1')?.history.decisions
  expect(stored).toEqual(
    DECISIONS.map((decision, at) => {
      const { patientId: _patientId, ...made } = decision
      return { id: at + 1, ...made }
    }),
  )
})

describe('a decision is never changed or removed', () => {
  test.each([
    ['changed', "UPDATE decision SET text = 'other' WHERE id = 1"],
    ['removed', 'DELETE FROM decision WHERE id = 1'],
    [
      'replaced',
      "INSERT OR REPLACE INTO decision (id, patient_id, kind, made_at, made_on, made_by, text, result_id) VALUES (4, 'P1', 'restoration', '2026-11-25T10:00:00.000Z', '2026-11-25', 'x', 'because', 1)",
    ],
  ])('%s', async (_, sql) => {
    await insertAll()
    expect(() => db.exec(sql)).toThrow(/a decision is never/)
    expect(fresh.store.reader.loadHistory('P1')?.history.decisions).toHaveLength(8)
  })
})

/** A row of columns for the table itself, past every check of the program. */
function insert(columns: Readonly<Record<string, string | number | null>>): void {
  const row = {
    id: 1,
    patient_id: 'P1',
    kind: 'exclusion',
    made_at: CALL.now,
    made_on: '2026-11-25',
    made_by: 'x',
    text: 'because',
    result_id: 1,
    ...columns,
  }
  const names = Object.keys(row)
  db.run(`INSERT INTO decision (${names.join(', ')}) VALUES (${names.map(() => '?').join(', ')})`, ...Object.values(row))
}

const REVIEW = { kind: 'review', result_id: null, rule: 'pd-serum', finding_key: '[]', bring_back_on: '2026-11-26' }
const ATTRIBUTION = { kind: 'attribution', result_id: null, rule: 'mde-renal', finding_key: '[]', shown_on: '2026-11-20', shown_values: '[]' }

test('the rows the checks are tried on are good ones', () => {
  insert({})
  insert({ ...REVIEW, id: 2 })
  insert({ ...ATTRIBUTION, id: 3 })
  insert({ kind: 'attribution-withdrawn', result_id: null, attribution_id: 3, id: 4 })
  expect(db.get('SELECT count(*) AS n FROM decision')).toEqual({ n: 4 })
})

test.each([
  ['another kind', { kind: 'opinion' }],
  ['nobody', { made_by: '' }],
  ['no reason', { text: 'no' }],
  ['a reason too long', { text: 'x'.repeat(501) }],
  ['an exclusion of nothing', { result_id: null }],
  ['an exclusion of a result that is not there', { result_id: 7 }],
  ['a patient that is not there', { patient_id: 'P9' }],
  ['a day that is none', { made_on: '25.11.2026' }],
  ['a gap in the numbers', { id: 3 }],
  ['a review of a result', { ...REVIEW, result_id: 1 }],
  ['a review without its finding', { ...REVIEW, finding_key: null }],
  ['a review without a rule', { ...REVIEW, rule: null }],
  ['a review for good', { ...REVIEW, bring_back_on: null }],
  ['a review that comes back the same day', { ...REVIEW, bring_back_on: '2026-11-25' }],
  ['an attribution without the value it was made on', { ...ATTRIBUTION, shown_values: null }],
  ['an attribution without its day', { ...ATTRIBUTION, shown_on: null }],
  ['values that are no JSON', { ...ATTRIBUTION, shown_values: '{' }],
  ['a review of no known kind', { ...REVIEW, did: 'thought about' }],
  ['a review that only looked, without a word', { ...REVIEW, did: 'seen', text: '' }],
  ['a review of before kinds without a word', { ...REVIEW, text: '' }],
  ['a handover that comes back', { ...REVIEW, kind: 'handover' }],
  ['an exclusion with a kind', { did: 'seen' }],
  ['a taking back of nothing', { kind: 'answer-withdrawn', result_id: null }],
  ['a withdrawal of nothing', { kind: 'attribution-withdrawn', result_id: null }],
])('the table refuses %s', (_, columns) => {
  expect(() => insert(columns)).toThrow(refusedBy(['constraint'], 'never replaced'))
})

test('an attribution is withdrawn once', () => {
  insert(ATTRIBUTION)
  insert({ kind: 'attribution-withdrawn', result_id: null, attribution_id: 1, id: 2 })
  expect(() => insert({ kind: 'attribution-withdrawn', result_id: null, attribution_id: 1, id: 3 })).toThrow(refusedBy(['unique']))
})

test('an answer is taken back once, and nothing else is', () => {
  insert(REVIEW)
  insert({ kind: 'answer-withdrawn', result_id: null, answer_id: 1, id: 2, text: '' })
  expect(() => insert({ kind: 'answer-withdrawn', result_id: null, answer_id: 1, id: 3, text: '' })).toThrow(refusedBy(['unique']))
  expect(() => insert({ kind: 'answer-withdrawn', result_id: null, answer_id: 2, id: 3, text: '' })).toThrow(/only a review or a handover/)
})

test('a review answers a handover, and nothing else', () => {
  insert(REVIEW)
  expect(() => insert({ ...REVIEW, id: 2, did: 'seen', handover_id: 1 })).toThrow(/only a handover/)
})
