import fc from 'fast-check'
import { expect, test } from 'vitest'
import { parseDecimal } from '../../lib/units/index.ts'
import type { IncomingFile } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { runs } from '../store/runs.ts'
import { counts, courseRows, csv, listText, only, patientRow, type Row, take } from './clinic.ts'

const PATIENTS = ['P1', 'P2', 'P3']
const PEOPLE = csv(
  'patients.csv',
  PATIENTS.map((id) => patientRow({ patient_id: id })),
)
const COURSE = PATIENTS.flatMap((id) => courseRows(id))

// Least and greatest in the unit given, in steps of a tenth, so that both units are exact.
const ANALYTES = [
  { code: '33358-3', unit: 'g/L', other: 'g/dL', least: 10, greatest: 600 },
  { code: '36916-5', unit: 'mg/L', other: 'mg/dL', least: 50, greatest: 20_000 },
  { code: '33944-0', unit: 'mg/L', other: 'mg/dL', least: 50, greatest: 3_000 },
  { code: '718-7', unit: 'g/L', other: 'g/dL', least: 700, greatest: 1_500 },
  { code: '1751-7', unit: 'g/L', other: 'g/dL', least: 200, greatest: 500 },
] as const
const DAYS = ['2024-01-15', '2024-06-01', '2025-01-20', '2025-09-01', '2026-03-02', '2026-08-20', '2026-10-30', '2026-11-20']

const oneResult = fc.record({
  patientId: fc.constantFrom(...PATIENTS),
  analyte: fc.constantFrom(...ANALYTES),
  on: fc.constantFrom(...DAYS),
  share: fc.integer({ min: 0, max: 1000 }),
  below: fc.boolean(),
  corrected: fc.option(fc.integer({ min: 0, max: 1000 }), { freq: 6, nil: null }),
})
type OneResult = typeof oneResult extends fc.Arbitrary<infer T> ? T : never

function rowsOf({ patientId, analyte, on, share, below, corrected }: OneResult, index: number): Row[] {
  const { code, unit, least, greatest } = analyte
  const value = (of: number) => ((least + Math.round(((greatest - least) * of) / 1000)) / 10).toFixed(1)
  const row = { patient_id: patientId, collected_at: on, code, unit, accession: `A${index}`, reported_at: on }
  const original = { ...row, status: '', value: `${below ? '<' : ''}${value(share)}` }
  return corrected === null ? [original] : [original, { ...row, status: 'corrected', value: value(corrected), reported_at: '2026-11-21' }]
}

const results: fc.Arbitrary<Row[]> = fc.array(oneResult, { minLength: 8, maxLength: 40 }).map((all) => all.flatMap(rowsOf))

/** The list after these calls of intake, and how many rows wait. */
async function listAfter(...calls: readonly (readonly IncomingFile[])[]): Promise<{ list: string; waiting: number }> {
  const { store, dispose } = await freshStore()
  try {
    for (const files of calls) await take(store, files)
    return { list: await listText(store), waiting: store.reader.heldQueue().length }
  } finally {
    await dispose()
  }
}

const plain = (rows: readonly Row[]) => listAfter([PEOPLE, csv('course.csv', COURSE), csv('results.csv', rows)])

/** The list without its sentences, which tell a value in the unit its report was printed in. */
function withoutSentences({ list, waiting }: { list: string; waiting: number }): unknown {
  return { waiting, list: JSON.parse(list, (key, value) => (key === 'says' || key === 'why' ? undefined : value)) }
}

const RUNS = runs(12)

test('the order of rows changes nothing', async () => {
  const shuffled = results.chain((rows) =>
    fc.tuple(fc.constant(rows), fc.shuffledSubarray(rows, { minLength: rows.length }), fc.shuffledSubarray(COURSE, { minLength: COURSE.length })),
  )
  await fc.assert(
    fc.asyncProperty(shuffled, async ([rows, otherwise, course]) => {
      const other = await listAfter([csv('results.csv', otherwise), csv('course.csv', course), PEOPLE])
      expect(other).toEqual(await plain(rows))
      expect(other.waiting).toBe(0)
    }),
    RUNS,
  )
})

test('into how many files rows are split, and how many calls take them, changes nothing', async () => {
  const split = results.chain((rows) =>
    fc.tuple(fc.constant(rows), fc.array(fc.integer({ min: 0, max: 3 }), { minLength: rows.length, maxLength: rows.length })),
  )
  await fc.assert(
    fc.asyncProperty(split, async ([rows, parts]) => {
      const files = [0, 1, 2, 3].map((part) =>
        csv(
          `results-${part}.csv`,
          rows.filter((_, index) => parts[index] === part),
        ),
      )
      const [first, second, third, fourth] = files as [IncomingFile, IncomingFile, IncomingFile, IncomingFile]
      expect(
        await listAfter([PEOPLE, csv('course.csv', COURSE.slice(0, 3)), third], [fourth, first, csv('more.csv', COURSE.slice(3))], [second]),
      ).toEqual(await plain(rows))
    }),
    RUNS,
  )
})

test('rows sent twice, in one file or another, change nothing', async () => {
  const doubled = results.chain((rows) => fc.tuple(fc.constant(rows), fc.subarray(rows), fc.subarray(rows)))
  await fc.assert(
    fc.asyncProperty(doubled, async ([rows, again, later]) => {
      const other = await listAfter([PEOPLE, csv('course.csv', COURSE), csv('results.csv', [...rows, ...again])], [PEOPLE, csv('later.csv', later)])
      expect(other).toEqual(await plain(rows))
    }),
    RUNS,
  )
})

test('the unit system changes nothing where it converts exactly', async () => {
  const inTens = (text: string): string => {
    const [, below = '', number = ''] = /^(<?)(.*)$/.exec(text) ?? []
    return `${below}${parseDecimal(number)?.div(10).toFixed() ?? 'not a number'}`
  }
  const otherUnit = (row: Row): Row => {
    const other = ANALYTES.find((analyte) => analyte.code === row.code)?.other ?? ''
    return { ...row, unit: other, value: inTens(row.value ?? '') }
  }
  const mixed = results.chain((rows) => fc.tuple(fc.constant(rows), fc.array(fc.boolean(), { minLength: rows.length, maxLength: rows.length })))
  await fc.assert(
    fc.asyncProperty(mixed, async ([rows, change]) => {
      const expected = withoutSentences(await plain(rows))
      expect(withoutSentences(await plain(rows.map(otherUnit)))).toEqual(expected)
      const some = rows.map((row, index) => (change[index] === true ? otherUnit(row) : row))
      expect(withoutSentences(await plain(some))).toEqual(expected)
    }),
    RUNS,
  )
})

test('whatever the cells hold, every row is accounted for', async () => {
  const text = fc.oneof(
    fc.string({ unit: 'grapheme', maxLength: 12 }),
    fc.constantFrom(
      '',
      'NaN',
      '1e309',
      '0x1F',
      '12,5',
      '1.234,5',
      '<0.1',
      '-3',
      '=1+1',
      '__proto__',
      '14.2',
      '2026-02-30',
      '2026-06-01',
      'P1',
      'g/L',
      '33358-3',
    ),
  )
  const anyRow = fc.record({
    patient_id: text,
    collected_at: text,
    code: text,
    value: text,
    unit: text,
    status: text,
    accession: text,
    reference_low: text,
  })
  const likelyRow = fc.record({
    patient_id: fc.constantFrom('P1', 'P9'),
    collected_at: fc.constantFrom('2026-06-01', '2027-01-01', '2026-02-30'),
    code: fc.constantFrom('33358-3', '2464-6'),
    value: text,
    unit: fc.constantFrom('g/L', 'g/dL', 'mg', ''),
    status: fc.constantFrom('', 'corrected', 'cancelled', 'preliminary'),
    accession: fc.constantFrom('A1', 'A2'),
    reference_low: text,
  })
  const { store, dispose } = await freshStore()
  await take(store, [PEOPLE])
  await fc.assert(
    fc.asyncProperty(fc.array(fc.oneof(anyRow, likelyRow), { maxLength: 30 }), async (rows) => {
      const [report] = await take(store, [csv('any.csv', [...rows, { patient_id: 'P1' }])])
      if (report === undefined || report.refusedWhole !== null) return
      const { filed, known, corrected, held, refused } = report
      expect(report.rows).toBe(rows.length + 1)
      expect(filed + known + corrected + held + refused).toBe(report.rows)
      expect(report.problems).toHaveLength(held + refused)
      const [again] = await take(store, [csv('none.csv', [{ patient_id: 'P1', collected_at: '', code: '', value: '', unit: '' }])])
      expect(again === undefined ? null : counts(again)).toEqual(only({ rows: 1, refused: 1 }))
    }),
    runs(40),
  )
  expect(store.reader.verifyTrail().firstBad).toBe(null)
  await dispose()
})
