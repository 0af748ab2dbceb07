import fc from 'fast-check'
import { expect, test } from 'vitest'
import { endMerge, patientDocument } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { runs } from '../../store/runs.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, listText, patientRow, type Row, take } from '../clinic.ts'
import { join, stored, twoRecords } from './joined.ts'

const ANALYTES = [
  { code: '33358-3', unit: 'g/L', least: 10, greatest: 600 },
  { code: '36916-5', unit: 'mg/L', least: 50, greatest: 20_000 },
  { code: '33944-0', unit: 'mg/L', least: 50, greatest: 3_000 },
  { code: '718-7', unit: 'g/L', least: 700, greatest: 1_500 },
] as const
const DAYS = ['2024-01-15', '2024-06-01', '2025-01-20', '2025-09-01', '2026-03-02', '2026-08-20', '2026-10-30', '2026-11-20']
const RECORDS = [['P1'], ['P2'], ['P1', 'P2']] as const

const share = fc.integer({ min: 0, max: 1000 })
const oneResult = fc.record({
  analyte: fc.constantFrom(...ANALYTES),
  on: fc.constantFrom(...DAYS),
  value: share,
  corrected: fc.option(share, { freq: 2, nil: null }),
  to: fc.constantFrom(...RECORDS),
  correctedTo: fc.constantFrom(...RECORDS),
})
type OneResult = typeof oneResult extends fc.Arbitrary<infer T> ? T : never

/** The reports of one result, each for the records it was sent to. A correction goes where its original went. */
function reportsOf({ analyte, on, value, corrected, to, correctedTo }: OneResult, index: number): { row: Row; to: readonly string[] }[] {
  const { code, unit, least, greatest } = analyte
  const text = (of: number) => ((least + Math.round(((greatest - least) * of) / 1000)) / 10).toFixed(1)
  const row = { collected_at: on, code, unit, accession: `A${index}` }
  const original = { row: { ...row, value: text(value), status: '', reported_at: on }, to }
  if (corrected === null) return [original]
  const known = to.filter((id) => (correctedTo as readonly string[]).includes(id))
  return [original, { row: { ...row, value: text(corrected), status: 'corrected', reported_at: '2026-11-21' }, to: known.length === 0 ? to : known }]
}

const reports = fc.array(oneResult, { minLength: 6, maxLength: 24 }).map((all) => all.flatMap(reportsOf))
const RUNS = runs(12)

const addressed = (some: readonly { row: Row; to: readonly string[] }[]): Row[] =>
  some.flatMap(({ row, to }) => to.map((id) => ({ patient_id: id, ...row })))

test('joined before, between or after, it is as if everything had come for one record', async () => {
  const sent = reports.chain((all) => fc.tuple(fc.constant(all), fc.integer({ min: 0, max: all.length }), fc.boolean(), fc.boolean()))
  await fc.assert(
    fc.asyncProperty(sent, async ([all, at, courseOfOther, keptOther]) => {
      const one = await freshStore()
      await take(one.store, [csv('patients.csv', [patientRow()]), csv('course.csv', courseRows())])
      await take(one.store, [
        csv(
          'results.csv',
          all.slice(0, at).map(({ row }) => ({ patient_id: 'P1', ...row })),
        ),
      ])
      await take(one.store, [
        csv(
          'results.csv',
          all.slice(at).map(({ row }) => ({ patient_id: 'P1', ...row })),
        ),
      ])
      const two = await freshStore()
      const [people] = twoRecords()
      if (people === undefined) throw new Error('no patients')
      await take(two.store, [people, csv('course.csv', courseRows(courseOfOther ? 'P2' : 'P1'))])
      await take(two.store, [csv('results.csv', addressed(all.slice(0, at)))])
      const [from, into] = keptOther ? ['P1', 'P2'] : ['P2', 'P1']
      await join(two.store, from, into)
      await take(two.store, [csv('results.csv', addressed(all.slice(at)))])
      const named = (text: string) => text.replaceAll('"P2"', '"P1"')
      expect(named(await listText(two.store))).toBe(await listText(one.store))
      const document = async ({ store }: typeof one, id: string) => named(JSON.stringify(granted(await patientDocument(callOf(store), id, null))))
      const expected = await document(one, 'P1')
      expect([await document(two, 'P1'), await document(two, 'P2')]).toEqual([expected, expected])
      await Promise.all([one.dispose(), two.dispose()])
    }),
    RUNS,
  )
})

test('ended, both records are byte for byte what they were, and what came in between is what would have come without', async () => {
  const conflict = fc.record({
    value: share,
    to: fc.constantFrom(...RECORDS),
    status: fc.constantFrom('', 'corrected', 'cancelled'),
    accession: fc.constantFrom('A0', 'A1'),
  })
  const sent = fc.tuple(reports, fc.array(conflict, { maxLength: 4 })).chain(([all, wild]) =>
    fc.tuple(
      fc.constant([
        ...all,
        ...wild.map(({ value, to, status, accession }) => ({
          row: { collected_at: '2026-08-20', code: '33358-3', unit: 'g/L', value: String(value), status, accession, reported_at: '' },
          to,
        })),
      ]),
      fc.integer({ min: 0, max: all.length }),
    ),
  )
  await fc.assert(
    fc.asyncProperty(sent, async ([all, at]) => {
      const [apart, joined] = [await freshStore(), await freshStore()]
      const first = [...twoRecords(), csv('results.csv', addressed(all.slice(0, at)))]
      const course = csv('more.csv', [{ patient_id: 'P2', on: '2024-02-01', event: 'line-start', line: '1', regimen: 'lenalidomide' }])
      const people = csv('people.csv', [patientRow({ patient_id: 'P2', clinician: 'Dr Alder', weight_kg: '70' })])
      const between = [people, course, csv('later.csv', addressed(all.slice(at)))]
      for (const { store } of [apart, joined]) await take(store, first)
      const before = stored(joined.url)
      const mergeId = await join(joined.store)
      granted(await endMerge(callOf(joined.store, 'navigator'), { mergeId, reason: 'Two people after all' }))
      expect(stored(joined.url)).toEqual(before)
      const again = await join(joined.store)
      for (const { store } of [apart, joined]) await take(store, between)
      granted(await endMerge(callOf(joined.store, 'physician'), { mergeId: again, reason: 'Two people after all' }))
      expect(stored(joined.url)).toEqual(stored(apart.url))
      expect(await listText(joined.store)).toBe(await listText(apart.store))
      await Promise.all([apart.dispose(), joined.dispose()])
    }),
    RUNS,
  )
})
