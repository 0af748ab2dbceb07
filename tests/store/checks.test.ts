import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { freshStore } from './freshStore.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { addPatient, CALL, newResult } from './samples.ts'
import { TEST_SERVER } from './testServer.ts'

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

// SQLite reads a literal that is too large as infinite; PostgreSQL has a word for it.
const INFINITE = TEST_SERVER === null ? '9e999' : "float8 'Infinity'"
const STANDING = `INSERT INTO standing (patient_id, history_revision, followed, rules_version, plan_version, evaluated_on, window_rank, state_rank, organ_rank, excess, phase, window, answer)
  VALUES ('P1', 0, 1, 'r', 'p', '2026-01-01', 0, 0, 0, %, 'active', 'same-day', '{}')`

test.each([
  ['a place in the order that is infinite', STANDING.replace('%', INFINITE)],
  ['a place in the order that is no number', STANDING.replace('%', `${INFINITE} - ${INFINITE}`)],
  ['a number with an exponent', "UPDATE result SET kept_low = '1e3'"],
  ['a number without its printed form', 'UPDATE result SET printed_low = NULL'],
  ['a reason beside a number', "UPDATE result SET none_reason = 'x'"],
  ['a status that is none', "UPDATE result SET status = 'amended'"],
  ['a kind that is none', "UPDATE result SET kind = 'words'"],
  ['a comparator that is none', "UPDATE result SET comparator = '~'"],
  ['a version that counts twice', 'UPDATE result SET current = 2'],
  ['a day that is none', "UPDATE result SET collected_on = '1.1.2026'"],
  ['text where a number belongs', "UPDATE result SET line = 'x'"],
  ['a result of nobody', "UPDATE result SET patient_id = 'P2'"],
  ['fewer patients added than none', 'UPDATE intake_file SET patients_added = -1'],
  ['counts that do not add up', 'UPDATE intake_file SET rows_read = 3, filed = 1'],
  [
    'two current versions',
    'INSERT INTO result SELECT id + 1, patient_id, identity, 2, 1, code, analyte, collected_at, collected_on, collected_order, status, kind, comparator, kept_low, kept_high, printed_low, printed_high, printed_unit, reading, none_reason, up_to, accession, laboratory, method, reference_low_kept, reference_low_printed, reference_high_kept, reference_high_printed, reported_at, value_text, unit_text, file_id, line FROM result',
  ],
  ['a changed log row', "UPDATE trail SET actor = 'x'"],
  ['a removed log row', 'DELETE FROM trail'],
  ['a replaced log row', 'INSERT OR REPLACE INTO trail SELECT * FROM trail'],
  [
    'a log row after a gap',
    'INSERT INTO trail SELECT 9, at, actor, role, session_hash, address, action, outcome, purpose, patient_id, object, object_version, request_id, before_hash, after_hash, event, previous_hash, hash FROM trail',
  ],
])('the database itself refuses %s', (_, sql) => {
  expect(() => db.exec(sql)).toThrow(refusedBy(['constraint', 'type'], 'append-only'))
})
