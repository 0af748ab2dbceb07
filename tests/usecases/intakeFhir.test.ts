import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { type IncomingFile, readReport, recheck, resolveHeld } from '../../lib/usecases/index.ts'
import { bundleText, type Fields, grams, json, loinc, observation, patientResource } from '../intake/fhir/resources.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { counts, courseRows, csv, listText, only, patientRow, resultRow, take, valuesOf } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const file = (name: string, text: string): IncomingFile => ({ name, bytes: new TextEncoder().encode(text) })
const bundle = (...resources: readonly Fields[]) => file('bundle.json', bundleText(resources))
const mProtein = (value: string, day: string, accession: string, changes: Fields = {}) =>
  observation({ valueQuantity: grams(value), effectiveDateTime: day, identifier: [{ value: accession }], ...changes })

// From 5.0 to 14.2 g/L: a progression from the lowest value.
const VALUES = [
  ['30.0', '2024-01-15', 'A1'],
  ['5.0', '2025-03-01', 'A2'],
  ['5.0', '2025-06-01', 'A3'],
  ['14.2', '2026-06-01', 'A4'],
  ['15.0', '2026-08-01', 'A5'],
] as const
const PATIENT = patientResource({ name: [{ use: 'official', family: 'Invented', given: ['Anna'] }] })
const BUNDLE = bundle(...VALUES.map(([value, day, accession]) => mProtein(value, day, accession)), PATIENT)
const COURSE = csv('course.csv', courseRows())

test('patients and results of a Bundle, with the course beside: the same list as from the three CSV files', async () => {
  const other = await freshStore()
  const patients = csv('p.csv', [patientRow({ family_name: 'Invented', given_name: 'Anna' })])
  const results = csv(
    'r.csv',
    VALUES.map(([value, collected_at, accession]) => resultRow({ value, collected_at, accession })),
  )
  await take(other.store, [patients, COURSE, results])
  const reports = await take(store, [COURSE, BUNDLE])
  expect(reports.map((report) => [report.fileName, report.kind, report.filed])).toEqual([
    ['bundle.json', null, 6],
    ['course.csv', 'course', 2],
  ])
  expect(await listText(store)).toContain('"rule":"pd-serum","state":"confirmed"')
  expect(await listText(store)).toBe(await listText(other.store))
  expect(valuesOf(store)).toEqual(['30.0', '5.0', '5.0', '14.2', '15.0'])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  await other.dispose()
})

test('every row is accounted for, in the report, in the database and in the log; the same file again is all known', async () => {
  const mixed = bundle(
    mProtein('14.2', '2026-06-01', 'A1'),
    mProtein('14.2', '2026-06-01', 'A1'),
    mProtein('15.0', '2026-06-01', 'A1', { status: 'amended' }),
    mProtein('1', '2026-06-01', 'A2', { code: { text: 'M-protein' } }),
    mProtein('1', '2026-06', 'A3'),
    { resourceType: 'Medication' },
    observation({ valueString: undefined, component: ['36916-5', '33944-0'].map((code) => ({ code: loinc(code), valueInteger: 3 })) }),
    { resourceType: 'DiagnosticReport', result: [] },
    PATIENT,
  )
  const fates = only({ rows: 10, filed: 2, known: 1, corrected: 1, held: 3, refused: 3 })
  const [tried] = await take(store, [mixed], { dryRun: true })
  const [report] = await take(store, [mixed])
  if (report === undefined || tried === undefined) throw new Error('no report')
  expect([counts(tried), counts(report)]).toEqual([fates, fates])
  expect(report.problems.map(({ line, outcome, reason }) => [line, outcome, reason])).toEqual([
    [4, 'held', 'unknown-code'],
    [5, 'refused', 'bad-date'],
    [6, 'refused', 'type-not-read'],
    [7, 'held', 'kind-not-read'],
    [7, 'held', 'kind-not-read'],
    [8, 'refused', 'only-groups'],
  ])
  expect(store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event).toMatchObject({ action: 'intake', ...fates })
  const { problems } = granted(await readReport(callOf(store), report.fileId ?? 0))
  expect(problems).toEqual(report.problems)
  expect(store.reader.file(report.fileId ?? 0)).toMatchObject({ ...fates, kind: null })
  const [good, again] = [await take(store, [BUNDLE]), await take(store, [BUNDLE])]
  expect(good[0]).toMatchObject({ rows: 6, refused: 0 })
  expect(counts(again[0] ?? report)).toEqual(only({ rows: 6, known: 5, held: 1 }))
})

test('a held row of a kind that is not read stays so; one of an unknown patient is filed once the patient is there', async () => {
  await take(store, [bundle(mProtein('14.2', '2026-06-01', 'A1', { subject: { reference: 'Patient/P1' } }))])
  const [waiting] = store.reader.heldQueue()
  expect(waiting).toMatchObject({ kind: 'results', reason: 'unknown-patient', patientId: 'P1', line: 1 })
  await take(store, [
    file('p.ndjson', json(PATIENT)),
    bundle(mProtein('1', '2026-06-01', 'A9', { valueInteger: 3, valueQuantity: undefined }), PATIENT),
  ])
  granted(await resolveHeld(callOf(store, 'navigator'), waiting?.id ?? 0, 'file', 'the patient is there now'))
  expect(valuesOf(store)).toEqual(['14.2'])
  const [unread] = store.reader.heldQueue()
  expect(unread).toMatchObject({ reason: 'kind-not-read' })
  expect(await resolveHeld(callOf(store, 'navigator'), unread?.id ?? 0, 'file', 'it is a 3')).toMatchObject({ ok: false, kind: 'invalid' })
})

test('3,000 entries in NDJSON come in parts, no patient in two; the same file again is all known', async () => {
  const ids = ['P1', 'P2', 'P3', 'P4']
  const patients = ids.map((id) => patientResource({ id, identifier: [{ value: id }] }))
  const results = Array.from({ length: 2_996 }, (_, at) =>
    mProtein('14.2', `20${10 + (at % 15)}-0${1 + (at % 9)}-${10 + (at % 18)}`, `A${at}`, { subject: { reference: `Patient/${ids[at % 4]}` } }),
  )
  const large = file('large.ndjson', [...results, ...patients].map(json).join('\n'))
  const [report] = await take(store, [large])
  expect(report).toMatchObject({ kind: null, rowsInFile: 3_000, rows: 3_000, filed: 3_000 })
  const entries = store.reader.trailPage({ actor: null, limit: 2, offset: 0 }).rows.map(({ event }) => event)
  expect(entries.map((event) => (event.action === 'intake' ? [event.part, event.parts, event.filed] : []))).toEqual([
    [2, 2, 1_500],
    [1, 2, 1_500],
  ])
  const [again] = await take(store, [large])
  expect(again).toMatchObject({ rows: 3_000, known: 3_000 })
  expect(store.reader.verifyTrail().firstBad).toBeNull()
})

test('a broken file is refused whole, kept and logged', async () => {
  const [report] = await take(store, [file('cut.json', bundleText([PATIENT]).slice(0, -3))])
  expect(report).toMatchObject({ rows: 0, kind: null, refusedWhole: { reason: 'broken-json' } })
  expect(store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event).toMatchObject({
    action: 'intake-refused',
    reason: 'broken-json',
  })
})
