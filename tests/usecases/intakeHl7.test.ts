import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, type IncomingFile, recheck, resolveHeld } from '../../lib/usecases/index.ts'
import { fileOf, msh, obr, obx, pid } from '../intake/hl7/messages.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { counts, courseRows, csv, listText, only, patientRow, type Row, resultRow, take, valuesOf } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const hl7 = (name: string, text: string): IncomingFile => ({ name, bytes: new TextEncoder().encode(text) })
const KNOWN = [
  csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2', sex: 'male' })]),
  csv('course.csv', [...courseRows(), ...courseRows('P2')]),
]
const PID2 = pid({ 3: 'P2^^^CLINIC^MR', 8: 'M' })

const DAYS = ['2024-01-18', '2024-06-15', '2025-01-15', '2025-07-15', '2026-01-15', '2026-05-15', '2026-10-15']

/** Two relapsing courses, as rows and as one message a sample. */
const SAMPLES = ['P1', 'P2'].flatMap((patient_id) =>
  [24, 12, 6, 2, 2, 9, 16].map((value, at): Row => {
    const collected_at = DAYS[at] ?? ''
    const row = { patient_id, collected_at, value: `${value}.5`, status: 'final', accession: `${patient_id}-${at}`, laboratory: 'NORTH' }
    return resultRow({ ...row, reference_low: '0', reference_high: '1', reported_at: '2026-06-01T12:00:00+02:00' })
  }),
)
const MESSAGES = SAMPLES.map(({ patient_id, collected_at, value, accession }, at) =>
  fileOf(
    msh({ 10: `M${at}` }),
    patient_id === 'P1' ? pid() : PID2,
    obr({ 3: accession ?? '', 7: collected_at?.replaceAll('-', '') ?? '' }),
    obx({ 5: value ?? '', 7: '0-1' }),
  ),
).join('')

test('messages give the same list as a CSV file of the same results, and an audit finds no difference', async () => {
  const other = await freshStore()
  await take(store, [...KNOWN, csv('results', SAMPLES)])
  const [, , report] = await take(other.store, [...KNOWN, hl7('results', MESSAGES)])
  expect(report === undefined ? null : [report.kind, counts(report)]).toEqual(['results', only({ rows: 14, filed: 14 })])
  const withoutLines = (text: string) => text.replace(/"line":\d+/g, '')
  const list = withoutLines(await listText(other.store))
  expect(list).toContain('"rule":"pd-serum"')
  expect(list).toBe(withoutLines(await listText(store)))
  expect(granted(await recheck(callOf(other.store))).differences).toEqual([])
  await other.dispose()
})

test('files of one call: results come last in HL7 too; a message again is known, in another file as well', async () => {
  const first = await take(store, [hl7('a.hl7', MESSAGES), ...KNOWN])
  expect(first.map(({ kind, held }) => [kind, held])).toEqual([
    ['patients', 0],
    ['course', 0],
    ['results', 0],
  ])
  const [again] = await take(store, [hl7('b.hl7', MESSAGES + MESSAGES)])
  expect(again === undefined ? null : counts(again)).toEqual(only({ rows: 28, known: 28 }))
})

test('one file with a row of each fate: the law holds in report, database and log', async () => {
  await take(store, KNOWN)
  const mixed = hl7(
    'mixed.hl7',
    fileOf(
      ...[msh(), pid(), obr(), obx(), obx({ 11: 'C', 5: '15.0' }), obx({ 3: '2465-3^IgG^LN', 5: '7~8' })],
      ...[obr({ 3: 'A2', 7: '20260230' }), obx(), pid({ 3: 'P9' }), obr({ 3: 'A3' }), obx()],
      ...[msh({ 10: 'M2' }), pid(), obr(), obx(), msh({ 9: 'ADT^A08', 10: 'M3' }), pid()],
    ),
  )
  const tried = await take(store, [mixed], { dryRun: true })
  const [report] = await take(store, [mixed])
  const expected = only({ rows: 7, filed: 1, known: 1, corrected: 1, held: 2, refused: 2 })
  expect([tried[0] && counts(tried[0]), report && counts(report)]).toEqual([expected, expected])
  expect(report?.problems.map(({ line, outcome, reason }) => [line, outcome, reason])).toEqual([
    [6, 'held', 'value-unreadable'],
    [8, 'refused', 'bad-date'],
    [11, 'held', 'unknown-patient'],
    [16, 'refused', 'message-not-read'],
  ])
  expect(valuesOf(store)).toEqual(['15.0'])
  expect(store.reader.file(report?.fileId ?? 0)).toMatchObject(expected)
  const [latest] = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows
  expect(latest?.event).toMatchObject({ action: 'intake', ...expected })
})

test('a result of somebody else is held, and no decision files it or changes the patient', async () => {
  await take(store, [...KNOWN, hl7('x.hl7', fileOf(msh(), pid({ 7: '19510312' }), obr(), obx(), pid({ 8: 'M' }), obr({ 3: 'A2' }), obx()))])
  const before = store.reader.patient('P1')
  for (const { id, reason } of store.reader.heldQueue()) {
    const decided = await resolveHeld(callOf(store, 'navigator'), id, 'file', 'it is hers')
    expect([reason, decided.ok, store.reader.patient('P1')?.version]).toEqual([reason, false, before?.version])
  }
  expect(store.reader.heldQueue().map(({ reason }) => reason)).toEqual(['birth-date-differs', 'sex-differs'])
  await take(store, [csv('p.csv', [patientRow({ birth_date: '1951-03-12' })])])
  const [, , ofPatient] = store.reader.heldQueue()
  granted(await resolveHeld(callOf(store, 'navigator'), ofPatient?.id ?? 0, 'file', 'checked with her papers'))
  const [first] = store.reader.heldQueue()
  granted(await resolveHeld(callOf(store, 'navigator'), first?.id ?? 0, 'file', 'the date is right now'))
  expect([store.reader.patient('P1')?.patient.birthDate, valuesOf(store)]).toEqual(['1951-03-12', ['14.2']])
})

test('what is unclear stays unclear when a person asks to file it', async () => {
  const two = pid({ 3: 'P1^^^CLINIC^MR~P2^^^OTHER^MR' })
  const text = fileOf(msh(), pid(), obr(), obx({ 11: 'R' }), obr({ 3: 'A2' }), obx({ 2: 'ST', 5: '14.2\\H\\' }), two, obr({ 3: 'A3' }), obx())
  await take(store, [...KNOWN, hl7('x.hl7', text)])
  const queue = store.reader.heldQueue()
  expect(queue.map(({ reason }) => reason)).toEqual(['status-unclear', 'escape-unknown', 'patient-unclear'])
  for (const { id } of queue)
    expect(await resolveHeld(callOf(store, 'navigator'), id, 'file', 'please')).toMatchObject({ ok: false, kind: 'invalid' })
  expect(valuesOf(store)).toEqual([])
})

test('a message cut off refuses the file whole and keeps nothing of it but its bytes', async () => {
  const [, , report] = await take(store, [...KNOWN, hl7('cut.hl7', MESSAGES.slice(0, -12))])
  expect(report).toMatchObject({ rows: 0, refusedWhole: { reason: 'hl7-truncated', sentence: expect.stringContaining('cut.hl7') } })
  expect([valuesOf(store), valuesOf(store, 'P2')]).toEqual([[], []])
})

test('a file of more than 2,000 OBX is taken in part by part', async () => {
  const ids = ['P1', 'P2', 'P3']
  await take(store, [
    csv(
      'patients.csv',
      ids.map((patient_id) => patientRow({ patient_id })),
    ),
  ])
  const messages = Array.from({ length: 2_400 }, (_, at) =>
    fileOf(
      msh({ 10: `M${at}` }),
      pid({ 3: `${ids[at % 3]}^^^CLINIC^MR` }),
      obr({ 3: `A${at}`, 7: `20${10 + (at % 15)}0${1 + (at % 9)}${10 + (at % 18)}` }),
      obx(),
    ),
  )
  const [report] = granted(await acceptFiles(callOf(store), [hl7('large.hl7', messages.join(''))], { source: null, dryRun: false }))
  expect(report).toMatchObject({ rowsInFile: 2_400, rows: 2_400, filed: 2_400 })
  const entries = store.reader.trailPage({ actor: null, limit: 2, offset: 0 }).rows.map(({ event }) => event)
  expect(entries.map((event) => (event.action === 'intake' ? [event.part, event.parts, event.filed] : []))).toEqual([
    [2, 2, 800],
    [1, 2, 1_600],
  ])
})
