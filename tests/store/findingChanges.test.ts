import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { NewFindingChange, Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { addPatient, CALL, newResult } from './samples.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let db: Outside
const EVENTS = [{ action: 'patient-opened', patientId: 'P1' }] as const

beforeEach(async () => {
  fresh = await freshStore()
  await fresh.store.record(CALL, (tx) => {
    const fileId = addPatient(tx, 'P1')
    const first = newResult('P1', fileId, '2026-01-01')
    tx.insertResultVersion(first, true)
    tx.insertResultVersion({ ...first, result: { ...first.result, version: 2, status: 'corrected' } }, true)
    tx.insertDecision({ patientId: 'P1', at: CALL.now, on: day('2026-11-25'), by: 'a nurse', text: 'Seen.', kind: 'exclusion', resultId: 1 })
    return { value: null, events: EVENTS }
  })
  db = fromOutside(fresh.url)
})
afterEach(async () => {
  db.close()
  await fresh.dispose()
})

const history = () => fresh.store.reader.loadHistory('P1')?.history

function newChange(): NewFindingChange {
  const [replaced, by] = fresh.store.reader.versionsOfPatient('P1').map(({ result }) => result)
  if (replaced === undefined || by === undefined) throw new Error('both versions were expected')
  const told = { before: '{"rule":"mde-renal"}', since: null, corrections: [{ replaced, by }], decisions: history()?.decisions ?? [] }
  return { patientId: 'P1', at: CALL.now, on: day('2026-11-25'), what: 'removed', rule: 'mde-renal', key: '["mde-renal"]', ...told }
}

async function insertTwo(): Promise<void> {
  await fresh.store.record(CALL, (tx) => {
    tx.insertFindingChange(newChange())
    tx.insertFindingChange({ ...newChange(), what: 'created', since: '{}', before: null, decisions: [] })
    return { value: null, events: EVENTS }
  })
}

test('a change comes back as it was kept, with both versions and the decision, numbered 1, 2', async () => {
  await insertTwo()
  const { patientId: _patientId, ...kept } = newChange()
  expect(history()?.changes).toEqual([
    { id: 1, ...kept },
    { id: 2, ...kept, what: 'created', since: '{}', before: null, decisions: [] },
  ])
})

describe('a change is never changed or removed', () => {
  test.each([
    ['changed', "UPDATE finding_change SET what = 'created' WHERE id = 1"],
    ['removed', 'DELETE FROM finding_change WHERE id = 2'],
    [
      'replaced',
      "INSERT OR REPLACE INTO finding_change SELECT 1, patient_id, made_at, made_on, what, 'x', finding_key, told_before, told_since, corrections, decisions FROM finding_change WHERE id = 1",
    ],
  ])('%s', async (_, sql) => {
    await insertTwo()
    const before = history()?.changes
    expect(() => db.exec(sql)).toThrow(/what a correction changed is never/)
    expect(history()?.changes).toEqual(before)
  })
})

const GOOD = {
  id: 1,
  patient_id: 'P1',
  made_at: CALL.now,
  made_on: '2026-11-25',
  what: 'changed',
  rule: 'mde-renal',
  finding_key: '[]',
  told_before: '{}',
  told_since: '{}',
  corrections: '[[1,2]]',
  decisions: '[1]',
}

/** A row of columns for the table itself, past every check of the program. */
function insert(columns: Readonly<Record<string, string | number | null>>): void {
  const row = { ...GOOD, ...columns }
  db.run(
    `INSERT INTO finding_change (${Object.keys(row).join(', ')}) VALUES (${Object.keys(row)
      .map(() => '?')
      .join(', ')})`,
    ...Object.values(row),
  )
}

test('the row the checks are tried on is a good one', () => {
  insert({})
  expect(db.get('SELECT count(*) AS n FROM finding_change')).toEqual({ n: 1 })
})

test.each([
  ['another kind', { what: 'moved' }],
  ['a patient that is not there', { patient_id: 'P9' }],
  ['a day that is none', { made_on: '25.11.2026' }],
  ['no rule', { rule: '' }],
  ['a key that is no JSON', { finding_key: '{' }],
  ['a removal of nothing', { what: 'removed', told_before: null }],
  ['a creation of nothing', { what: 'created', told_since: null }],
  ['a change from nothing', { told_before: null }],
  ['no correction', { corrections: '[]' }],
  ['decisions that are no list', { decisions: '{}' }],
  ['a gap in the numbers', { id: 3 }],
])('the table refuses %s', (_, columns) => {
  expect(() => insert(columns)).toThrow(refusedBy(['constraint'], 'never replaced'))
})

test('of several results only that is a correction whose counting version changed since', async () => {
  const { reader } = fresh.store
  const last = reader.lastResultId()
  expect([last, reader.correctionsSince(0), reader.correctionsSince(last)]).toEqual([2, [], []])
  expect(reader.correctionsSince(1).map(({ patientId, replaced, by }) => [patientId, replaced.version, by.version])).toEqual([['P1', 1, 2]])
})
