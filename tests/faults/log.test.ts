import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import {
  type CohortQuery,
  exportCohort,
  exportCohortFindings,
  exportFindings,
  exportList,
  exportPatient,
  patientOnPaper,
  printList,
  readReport,
} from '../../lib/usecases/index.ts'
import { signIn } from '../../lib/usecases/sessions/signIn.ts'
import { freshStore } from '../store/freshStore.ts'
import { refuseRows, withoutGuards } from '../store/guards.ts'
import { fromOutside, type Outside } from '../store/outside.ts'
import { CALL } from '../store/samples.ts'
import { addPerson, callOf, granted, logged, NOW, PASSWORD } from '../usecases/accounts/persons.ts'
import { csv, patientRow, resultRow, take } from '../usecases/clinic.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let outside: Outside
beforeEach(async () => {
  fresh = await freshStore()
  outside = fromOutside(fresh.url)
})
afterEach(async () => {
  outside.close()
  await fresh.dispose()
})

const EVERYBODY: CohortQuery = {
  ...{ window: null, phase: null, clinician: null, rule: null },
  ...{ sort: 'urgency', descending: false, page: 1, pageSize: 50 },
}

const NO_LOG = { table: 'trail', says: 'the log is full' } as const

test('when the log cannot be written, the change is not made', async () => {
  refuseRows(outside, NO_LOG)
  const change = fresh.store.record(CALL, (tx) => ({ value: tx.setSetting('a', 'b'), events: [{ action: 'sign-out' }] }))
  await expect(change).rejects.toThrow('the log is full')
  expect(fresh.store.reader.setting('a')).toBe(null)
})

test('when the log cannot be written, nobody is signed in', async () => {
  await addPerson(fresh.store, 'nurse', 'navigator')
  refuseRows(outside, NO_LOG)
  const outcome = await signIn(fresh.store, { name: 'nurse', password: PASSWORD }, { now: new Date(NOW), requestId: 'r', address: null })
  expect(outcome).toMatchObject({ ok: false, kind: 'unavailable' })
  expect(fresh.store.reader.openSessions('')).toEqual([])
})

test('when the log cannot be written, nothing leaves and no report is read', async () => {
  await take(fresh.store, [csv('p.csv', [patientRow()]), csv('r.csv', [resultRow(), resultRow({ code: 'none such', accession: 'B' })])])
  const { store } = fresh
  granted(await readReport(callOf(store, 'navigator'), 2))
  expect(logged(store).at(-1)).toMatchObject({ action: 'report-read', actor: 'a navigator' })
  granted(await exportList(callOf(store, 'navigator'), { asOf: null }))
  refuseRows(outside, NO_LOG)
  for (const ask of [
    () => readReport(callOf(store, 'navigator'), 2),
    () => exportList(callOf(store, 'navigator'), { asOf: null }),
    () => exportFindings(callOf(store, 'navigator'), { asOf: null }),
    () => exportPatient(callOf(store, 'physician'), 'P1'),
    () => patientOnPaper(callOf(store, 'physician'), 'P1'),
    () => printList(callOf(store, 'navigator'), EVERYBODY),
    () => exportCohort(callOf(store, 'quality'), EVERYBODY),
    () => exportCohortFindings(callOf(store, 'quality'), EVERYBODY),
  ])
    await expect(ask()).rejects.toThrow('the log is full')
})

async function tenRows(): Promise<void> {
  for (let n = 0; n < 10; n++)
    await fresh.store.record(CALL, (tx) => ({ value: tx.setSetting(`s${n}`, 'x'), events: [{ action: 'patient-opened', patientId: `P${n}` }] }))
}

/** What somebody with the database in their hands can do: take the triggers away, change the log, put them back. */
const forge = (sql: string): void => withoutGuards(outside, () => outside.exec(sql))

test.each([
  ['a changed actor', "UPDATE trail SET actor = 'somebody' WHERE sequence = 4", 4],
  ['a changed event', "UPDATE trail SET event = replace(event, 'P6', 'P5') WHERE sequence = 7", 7],
  ['a row removed from the middle', 'DELETE FROM trail WHERE sequence = 5', 5],
  ['the first row removed', 'DELETE FROM trail WHERE sequence = 1', 1],
  [
    "two rows in each other's place",
    'UPDATE trail SET sequence = 99 WHERE sequence = 3; UPDATE trail SET sequence = 3 WHERE sequence = 4; UPDATE trail SET sequence = 4 WHERE sequence = 99',
    3,
  ],
])('%s is named', async (_, sql, sequence) => {
  await tenRows()
  expect(fresh.store.reader.verifyTrail()).toMatchObject({ rows: 10, firstBad: null })
  forge(sql)
  expect(fresh.store.reader.verifyTrail().firstBad).toBe(sequence)
})

test('a tail that was cut off does not show in the chain, but in the head kept elsewhere', async () => {
  await tenRows()
  const kept = fresh.store.reader.trailHead()
  forge('DELETE FROM trail WHERE sequence > 8')
  expect(fresh.store.reader.verifyTrail().firstBad).toBe(null)
  expect(fresh.store.reader.trailHead()).not.toEqual(kept)
})
