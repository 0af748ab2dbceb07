import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { canonicalJson, SHOWING_ACTIONS, shownPatients, type TrailEvent } from '../../lib/trail/index.ts'
import { freshStore } from './freshStore.ts'
import { takeGuardAway, withoutGuards } from './guards.ts'
import { fromOutside, type Outside } from './outside.ts'
import { CALL } from './samples.ts'
import { TEST_SERVER } from './testServer.ts'

const EVENTS: readonly (readonly [TrailEvent, readonly string[]])[] = [
  [{ action: 'list-shown', patients: ['P1', 'P2', 'P1'] }, ['P1', 'P2']],
  [{ action: 'list-exported', patients: ['P3'] }, ['P3']],
  [{ action: 'patient-opened', patientId: 'P4' }, ['P4']],
  [{ action: 'pseudonymous-list-shown', patients: ['P15', 'P16'] }, ['P15', 'P16']],
  [{ action: 'pseudonymous-patient-opened', patientId: 'P17' }, ['P17']],
  [{ action: 'held-opened', heldId: 1, patientId: 'P5', beside: ['P6'] }, ['P5', 'P6']],
  [{ action: 'held-opened', heldId: 1, patientId: null, beside: [] }, []],
  [{ action: 'held-compared', heldId: 1, patientId: 'P7' }, ['P7']],
  [{ action: 'records-compared', patientId: 'P8', fromId: 'P9' }, ['P8', 'P9']],
  [{ action: 'merges-shown', patients: ['P10'] }, ['P10']],
  [{ action: 'course-changed', patientId: 'P13', changeId: 1, before: null, after: 'a' }, []],
  [{ action: 'plan-tried', version: null, from: '2026-12-01' as never, sha256: 'a', evaluated: 2, changed: 1, patients: ['P11'] }, ['P11']],
  [{ action: 'access-refused', permission: 'patient.read', object: 'a closed record', patientId: 'P12' }, []],
  [{ action: 'review-recorded', patientId: 'P13', decisionId: 1, before: null, after: 'a' }, []],
  [{ action: 'mapping-taken-back', mappingId: 1, rows: 1, versions: 1, patients: ['P14'] }, []],
]

const AUDITED = { from: '2026-01-01' as never, to: '2026-06-30' as never, cutOff: '2026-07-31' as never, revision: 1 }

/** Kinds of entry that came after the table: a log from before it has none of them. */
const LATER: typeof EVENTS = [
  [{ action: 'round-shown', roundId: 1, patients: ['P18'] }, ['P18']],
  [{ action: 'consequence-shown', patientId: 'P20' }, ['P20']],
  [{ action: 'pseudonymous-list-exported', patients: ['P19'] }, ['P19']],
  [{ action: 'patient-exported', patientId: 'P23', as: 'paper', revision: 1 }, ['P23']],
  [{ action: 'sheet-drafted', patientId: 'P21' }, ['P21']],
  [{ action: 'sheet-opened', patientId: 'P22', sheetId: 1 }, ['P22']],
  [{ action: 'follow-up-patients-shown', ...AUDITED, by: 'phase', patients: ['P24'] }, ['P24']],
  [{ action: 'pseudonymous-follow-up-patients-shown', ...AUDITED, by: 'phase', patients: ['P25'] }, ['P25']],
]

test.each([...EVENTS, ...LATER])('%j shows whom it shows', (event, patients) => {
  expect(shownPatients(event)).toEqual(patients)
})

test('every kind of entry that shows patients is tried here', () => {
  expect([...new Set([...EVENTS, ...LATER].filter(([, patients]) => patients.length > 0).map(([{ action }]) => action))].toSorted()).toEqual(
    SHOWING_ACTIONS.toSorted(),
  )
})

type Shown = { readonly patient_id: string; readonly sequence: number }
const shownIn = (db: Outside) =>
  db.all<Shown>('SELECT patient_id, sequence FROM trail_shown ORDER BY sequence, patient_id').map((row) => `${row.sequence} ${row.patient_id}`)

test('the write that appends an entry keeps whom it shows', async () => {
  const { store, url, dispose } = await freshStore()
  await store.record(CALL, () => ({ value: null, events: EVENTS.map(([event]) => event) }))
  const db = fromOutside(url)
  expect(shownIn(db)).toHaveLength(EVENTS.flatMap(([, patients]) => patients).length)
  db.close()
  await dispose()
})

// On the server there is no version that did not keep it.
test.runIf(TEST_SERVER === null)('the migration finds the same in a log that was there before', async () => {
  const { store, url, dispose } = await freshStore()
  await store.record(CALL, () => ({ value: null, events: EVENTS.map(([event]) => event) }))
  const db = fromOutside(url)
  const kept = shownIn(db)
  const migration = readFileSync('prisma/migrations/20261127040000_emergency_views/migration.sql', 'utf8')
  const [backfill = ''] = /INSERT OR IGNORE INTO trail_shown[^;]+;/.exec(migration) ?? []
  withoutGuards(db, () => db.exec(`DELETE FROM trail_shown; ${backfill}`))
  expect(shownIn(db)).toEqual(kept)
  db.close()
  await dispose()
})

test('whom an entry shows is never changed, and goes with its entry alone', async () => {
  const { store, url, dispose } = await freshStore()
  await store.record(CALL, () => ({ value: null, events: EVENTS.map(([event]) => event) }))
  const db = fromOutside(url)
  expect(() => db.exec("UPDATE trail_shown SET patient_id = 'P99'")).toThrow(/never changed/)
  expect(() => db.exec('DELETE FROM trail_shown')).toThrow(/never removed while the entry stands/)
  // As where entries are moved out of the log: the trigger that refuses it is not asked.
  takeGuardAway(db, 'trail', 'trail_refuses_delete')
  db.exec('DELETE FROM trail')
  expect(shownIn(db)).toEqual([])
  db.close()
  await dispose()
})

test('an event is read back from the log as it was told', () => {
  expect(EVENTS.map(([event]) => shownPatients(JSON.parse(canonicalJson(event)) as TrailEvent))).toEqual(EVENTS.map(([, patients]) => patients))
})
