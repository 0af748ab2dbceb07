import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { acceptFiles, type IncomingFile, readReport, recheck, resolveHeld, saveProfile } from '../../../lib/usecases/index.ts'
import { fileOf, msh, obr, obx, pid } from '../../intake/hl7/messages.ts'
import { freshStore } from '../../store/freshStore.ts'
import { rowsOf } from '../../store/tables.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { counts, csv, only, resultRow, valuesOf } from '../clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const trust = async (addsPatients = true) =>
  granted(await saveProfile(callOf(store), { given: { source: 'North', addsPatients, timeZone: 'Europe/Berlin' }, reason: 'agreed with it' }))

const message = (...segments: readonly string[]): IncomingFile => ({ name: 'lab.hl7', bytes: new TextEncoder().encode(fileOf(msh(), ...segments)) })

async function take(file: IncomingFile, source: string | null = 'North', dryRun = false) {
  const [report] = granted(await acceptFiles(callOf(store), [file], { source, dryRun }))
  if (report === undefined) throw new Error('no report')
  return report
}

const P7 = pid({ 3: 'P7^^^CLINIC^MR', 7: '19610405', 8: 'M' })

test('a message about nobody known makes the patient first, from a trusted source alone', async () => {
  expect(counts(await take(message(P7, obr(), obx())))).toEqual(only({ rows: 1, held: 1 }))
  await trust()
  // Another source, no source, and what the message says of itself (MSH-4 is NORTH) add nobody.
  for (const source of ['South', null, 'NORTH']) {
    const report = await take(message(P7, obr({ 3: 'A2' }), obx()), source)
    expect([counts(report), report.patientsAdded]).toEqual([only({ rows: 1, held: 1 }), 0])
  }
  const report = await take(message(P7, obr({ 3: 'A3' }), obx(), obx({ 3: '718-7^Hb^LN', 5: '101' }), obx({ 3: 'X^what^L' })))
  expect([counts(report), report.patientsAdded]).toEqual([only({ rows: 3, filed: 2, held: 1 }), 1])
  expect(store.reader.patient('P7')?.patient).toMatchObject({ birthDate: '1961-04-05', sex: 'male', status: 'followed', familyName: null })
  expect(valuesOf(store, 'P7')).toEqual(['14.2', '101'])
  const [entry] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
  expect(entry?.event).toMatchObject({ action: 'intake', rows: 3, filed: 2, patientsAdded: 1 })
  expect(granted(await readReport(callOf(store), report.fileId ?? 0)).patientsAdded).toBe(1)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  const again = await take(message(P7, obr({ 3: 'A3' }), obx()))
  expect([counts(again), again.patientsAdded]).toEqual([only({ rows: 1, known: 1 }), 0])
})

test('the patient comes from the row that made them', async () => {
  await trust()
  const { fileId } = await take(message(P7, obr(), obx({ 3: 'X^what^L' }), obx()))
  const [stored] = rowsOf(store.url, 'patient')
  expect(stored).toMatchObject({ id: 'P7', file_id: fileId, line: 5 })
})

test.each([
  ['no birth date', [pid({ 3: 'P7^^^C^MR', 7: '' }), obr(), obx()], 'unknown-patient'],
  ['no sex', [pid({ 3: 'P7^^^C^MR', 8: 'U' }), obr(), obx()], 'unknown-patient'],
  ['another sex', [pid({ 3: 'P7^^^C^MR', 8: 'O' }), obr(), obx()], 'unknown-patient'],
  ['a birth date that is none', [pid({ 3: 'P7^^^C^MR', 7: '19610231' }), obr(), obx()], 'unknown-patient'],
  ['a birth date to come', [pid({ 3: 'P7^^^C^MR', 7: '20610101' }), obr(), obx()], 'unknown-patient'],
  ['collected before the birth', [pid({ 3: 'P7^^^C^MR', 7: '20260701' }), obr(), obx()], 'unknown-patient'],
  ['two identifiers', [pid({ 3: 'P7^^^C^MR~P8^^^C^MR' }), obr(), obx()], 'patient-unclear'],
  ['an unknown code', [P7, obr(), obx({ 3: 'X^what^L' })], 'unknown-code'],
  ['a value nobody can read', [P7, obr(), obx({ 2: 'ST', 5: 'high' })], 'unknown-patient'],
  ['a withdrawal', [P7, obr(), obx({ 11: 'W' })], 'unknown-patient'],
  ['a cancellation', [P7, obr(), obx({ 11: 'X' })], 'unknown-patient'],
  ['a correction without its original', [P7, obr(), obx({ 11: 'C' })], 'unknown-patient'],
])('%s adds nobody and is held', async (_, segments, reason) => {
  await trust()
  const report = await take(message(...segments))
  expect([counts(report), report.patientsAdded]).toEqual([only({ rows: 1, held: 1 }), 0])
  expect(report.problems).toMatchObject([{ reason }])
  expect(store.reader.patientIds()).toEqual([])
})

test('a table of results names nobody’s birth, so it adds nobody', async () => {
  await trust()
  expect(counts(await take(csv('r.csv', [resultRow()])))).toEqual(only({ rows: 1, held: 1 }))
})

test('a dry run says how many would be added, and adds nobody', async () => {
  await trust()
  const report = await take(message(P7, obr(), obx()), 'North', true)
  expect([report.filed, report.patientsAdded]).toEqual([1, 1])
  expect(store.reader.patientIds()).toEqual([])
})

test('a row that waits makes its patient when it is filed from a source that is trusted by then; not once the trust is gone', async () => {
  await take(message(P7, obr(), obx()))
  await take(message(pid({ 3: 'P8^^^C^MR' }), obr(), obx()))
  const [first, second] = store.reader.heldQueue()
  if (first === undefined || second === undefined) throw new Error('two rows wait')
  expect(await resolveHeld(callOf(store), first.id, 'file', 'a test')).toMatchObject({ ok: false })
  await trust()
  granted(await resolveHeld(callOf(store), first.id, 'file', 'agreed with the laboratory'))
  expect(store.reader.patientIds()).toEqual(['P7'])
  expect(valuesOf(store, 'P7')).toEqual(['14.2'])
  await trust(false)
  expect(await resolveHeld(callOf(store), second.id, 'file', 'a test')).toMatchObject({ ok: false })
  expect(store.reader.patientIds()).toEqual(['P7'])
})
