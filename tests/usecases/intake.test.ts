import { createHash } from 'node:crypto'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, heldRows, readReport } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted, logged } from './accounts/persons.ts'
import { counts, courseRows, csv, listText, only, patientRow, resultRow, TODAY, take, valuesOf } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const PATIENTS = csv('patients.csv', [patientRow()])
const BAD = { name: 'bad.csv', bytes: new Uint8Array([0xff, 0xfe, 0x41]) }

/** One row of each fate, once P1 is known. */
const MIXED = csv('mixed.csv', [
  resultRow(),
  resultRow(),
  resultRow({ status: 'corrected', value: '15.0' }),
  resultRow({ accession: 'A2', unit: 'g/kg' }),
  resultRow({ patient_id: 'P9' }),
  resultRow({ accession: 'A3', collected_at: '2026-02-30' }),
  resultRow({ accession: 'A4', value: 'NaN' }),
])
const MIXED_COUNTS = only({ rows: 7, filed: 1, known: 1, corrected: 1, held: 2, refused: 2 })

test('every row is accounted for: in the report, in the database and in the log row', async () => {
  const [, report] = await take(store, [PATIENTS, MIXED])
  if (report === undefined) throw new Error('no report')
  expect(counts(report)).toEqual(MIXED_COUNTS)
  expect(report.problems.map(({ line, outcome, reason }) => [line, outcome, reason])).toEqual([
    [5, 'held', 'unit-dimension'],
    [6, 'held', 'unknown-patient'],
    [7, 'refused', 'bad-date'],
    [8, 'refused', 'not-a-number'],
  ])
  const kept = store.reader.file(report.fileId ?? 0)
  expect(kept).toMatchObject(MIXED_COUNTS)
  expect(store.reader.refusedRows(report.fileId ?? 0)).toHaveLength(2)
  expect(store.reader.heldQueue()).toHaveLength(2)
  const { rows } = store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
  expect(rows[0]?.event).toMatchObject({ action: 'intake', fileId: report.fileId, sha256: report.sha256, ...MIXED_COUNTS })
  const read = granted(await readReport(callOf(store), report.fileId ?? 0))
  expect(read.problems).toEqual(report.problems)
})

test('the bytes kept are the bytes given, under their SHA-256', async () => {
  const bytes = new TextEncoder().encode('\ufeffpatient_id,birth_date,sex,family_name\r\nP1,1950,female,=1+1\r\n')
  const [report] = await take(store, [{ name: 'patients.csv', bytes }])
  expect(Buffer.compare(store.reader.fileBytes(report?.fileId ?? 0) ?? Buffer.alloc(0), Buffer.from(bytes))).toBe(0)
  expect(report?.sha256).toBe(createHash('sha256').update(bytes).digest('hex'))
  expect(store.reader.patient('P1')?.patient.familyName).toBe('=1+1')
})

test('the same files again: all known, and nothing changes', async () => {
  const files = [PATIENTS, csv('course.csv', courseRows()), csv('results.csv', [resultRow(), resultRow({ accession: 'A2', value: '15' })])]
  await take(store, files)
  const before = { list: await listText(store), standing: store.reader.standing('P1'), revision: store.reader.patient('P1')?.revision }
  const again = await take(store, files)
  for (const report of again) expect(counts(report)).toEqual(only({ rows: report.rows, known: report.rows }))
  expect({ list: await listText(store), standing: store.reader.standing('P1'), revision: store.reader.patient('P1')?.revision }).toEqual(before)
})

test('files are read patients, course, results, whatever order they are named in', async () => {
  const named = [csv('c.csv', [resultRow()]), csv('b.csv', courseRows()), csv('a.csv', [patientRow()])]
  const reports = await take(store, named)
  expect(reports.map((report) => [report.kind, report.held])).toEqual([
    ['patients', 0],
    ['course', 0],
    ['results', 0],
  ])
})

test('a file refused whole keeps the others, is kept with its reason, and is logged', async () => {
  const reports = await take(store, [BAD, csv('empty.csv', []), PATIENTS])
  expect(reports.map((report) => [report.fileName, report.refusedWhole?.reason ?? null])).toEqual([
    ['patients.csv', null],
    ['bad.csv', 'not-utf-8'],
    ['empty.csv', 'empty-file'],
  ])
  expect(store.reader.patientIds()).toEqual(['P1'])
  expect(store.reader.file(reports[1]?.fileId ?? 0)).toMatchObject({ rows: 0, refusedWhole: { reason: 'not-utf-8' } })
  expect(logged(store).map(({ action }) => action)).toEqual(['intake', 'intake-refused', 'intake-refused'])
})

test('no file at all is said, not done', async () => {
  expect(await acceptFiles(callOf(store), [], { source: null, dryRun: false })).toMatchObject({ ok: false, kind: 'invalid' })
})

describe('a dry run', () => {
  test('reports what the real run reports, and keeps nothing', async () => {
    const files = [BAD, MIXED, csv('course.csv', courseRows()), PATIENTS]
    const tried = await take(store, files, { dryRun: true })
    expect(store.reader.isEmpty()).toBe(true)
    expect(logged(store)).toEqual([])
    const done = await take(store, files)
    const alike = (report: (typeof done)[number]) => ({ ...report, fileId: null, dryRun: false })
    expect(tried.map(alike)).toEqual(done.map(alike))
    expect(tried.every((report) => report.dryRun && report.fileId === null)).toBe(true)
  })

  test('sees what is stored already', async () => {
    await take(store, [PATIENTS, MIXED])
    const [tried] = await take(store, [csv('more.csv', [resultRow(), resultRow({ accession: 'B1' })])], { dryRun: true })
    expect(tried === undefined ? null : counts(tried)).toEqual(only({ rows: 2, known: 1, filed: 1 }))
    expect(valuesOf(store)).toEqual(['15.0'])
  })
})

test('a person who may not is refused, and that is in the log; nothing of the file is kept', async () => {
  const refused = await acceptFiles(callOf(store, 'quality'), [PATIENTS], { source: null, dryRun: false })
  expect(refused).toEqual({ ok: false, kind: 'not-allowed', reason: 'The role quality does not include this (intake.write).' })
  expect(store.reader.isEmpty()).toBe(true)
  expect(logged(store)).toEqual([{ actor: 'a quality', role: 'quality', action: 'access-refused', outcome: 'failure' }])
})

test('the standing is renewed in the transaction that changes the history', async () => {
  await take(store, [PATIENTS, csv('course.csv', courseRows())])
  const revision = store.reader.patient('P1')?.revision ?? 0
  await take(store, [csv('calcium.csv', [resultRow({ code: '17861-6', value: '3.6', unit: 'mmol/L', collected_at: '2026-11-25' })])])
  expect(store.reader.patient('P1')?.revision).toBe(revision + 1)
  expect(store.reader.standing('P1')).toMatchObject({ historyRevision: revision + 1, window: 'same-day', evaluatedOn: TODAY })
})

test('a row is held on its patient: the queue shows it with its fields and waiting days', async () => {
  await take(store, [PATIENTS, csv('r.csv', [resultRow({ unit: '' })])])
  const week = callOf(store, 'navigator', '2026-12-02T10:00:00.000Z')
  expect(granted(await heldRows(week))).toMatchObject([
    { patientId: 'P1', reason: 'unit-missing', line: 2, waitingDays: 7, fields: { code: '33358-3', value: '14.2', unit: '' } },
  ])
})

test('a patient changed by somebody else while a file is being read is the patient the file is filed against', async () => {
  await take(store, [PATIENTS])
  const death = csv('death.csv', [patientRow({ status: 'died', status_on: '2026-05-01' })])
  let between: Promise<unknown> | null = null
  const meanwhile: Store = {
    ...store,
    record: async (call, change) => {
      between ??= take(store, [death])
      await between
      return store.record(call, change)
    },
  }
  const [report] = await take(store, [csv('r.csv', [resultRow()])], { call: { ...callOf(store), store: meanwhile } })
  expect(report?.problems.map(({ reason }) => reason)).toEqual(['collected-after-death'])
})
