import fc from 'fast-check'
import { afterEach, expect, test } from 'vitest'
import type { Store, Tx } from '../../lib/store/index.ts'
import { type Call, type IncomingFile, recheck } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { fromOutside } from '../store/outside.ts'
import { runs } from '../store/runs.ts'
import { tableNames } from '../store/tables.ts'
import { callOf, granted } from './accounts/persons.ts'
import { courseRows, csv, only, patientRow, type Row, resultRow, take } from './clinic.ts'

const disposals: (() => Promise<void>)[] = []
afterEach(async () => {
  for (const dispose of disposals.splice(0)) await dispose()
})

async function clinic(): Promise<Store> {
  const { store, dispose } = await freshStore()
  disposals.push(dispose)
  await take(store, [
    csv(
      'p.csv',
      ['P1', 'P2', 'P3'].map((patient_id) => patientRow({ patient_id })),
    ),
    csv('c.csv', courseRows()),
  ])
  return store
}

/** A call whose changes see the database through `through`, and before each of which `before` is done. */
function callThrough(store: Store, through: (tx: Tx) => Partial<Tx>, before: () => Promise<unknown> = async () => undefined): Call {
  const record: Store['record'] = async (by, change) => {
    await before()
    return store.record(by, (tx) => change({ ...tx, ...through(tx) }))
  }
  return { ...callOf(store), store: { ...store, record } }
}

const notUnderTheLock = (): never => {
  throw new Error('asked under the lock')
}

/** What was planned is asked for nothing but whether it still holds. */
const asPlanned = (): Partial<Tx> => ({ versionsOf: notUnderTheLock, loadCounted: notUnderTheLock, loadHistory: notUnderTheLock })
/** Nothing that was planned holds. */
const rowByRow = (tx: Tx): Partial<Tx> => ({
  patient: (id) => {
    const stored = tx.patient(id)
    return stored === null ? null : { ...stored, revision: -1 }
  },
})

const series = (patient_id: string, count: number): Row[] =>
  Array.from({ length: count }, (_, at) =>
    resultRow({
      patient_id,
      collected_at: `2025-${String(1 + (at % 12)).padStart(2, '0')}-15`,
      value: `${10 + at}`,
      accession: `${patient_id}-${at}`,
    }),
  )

test('plain results, a correction and a repetition among them, are filed and evaluated as planned before the lock', async () => {
  const store = await clinic()
  const rows = [
    ...series('P1', 12),
    resultRow({ accession: 'P1-3', collected_at: '2025-04-15', value: '17', status: 'corrected' }),
    ...series('P2', 3),
  ]
  const [report] = await take(store, [csv('r.csv', [...rows, ...series('P2', 1)])], { call: callThrough(store, asPlanned) })
  expect(report).toMatchObject(only({ rows: 17, filed: 15, corrected: 1, known: 1 }))
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  const more = await take(store, [csv('more.csv', [...series('P1', 14)])], { call: callThrough(store, asPlanned) })
  expect(more[0]).toMatchObject({ rows: 14, filed: 2, known: 12 })
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test.each<[string, IncomingFile, object]>([
  ['the same rows', csv('first.csv', series('P1', 12)), { known: 12, filed: 3 }],
  ['rows of another patient, so that numbers move', csv('first.csv', series('P3', 2)), { known: 0, filed: 15 }],
  ['another value of one', csv('first.csv', [resultRow({ collected_at: '2025-05-15', value: '99', accession: 'P1-4' })]), { held: 1, filed: 14 }],
  ['the death of the patient', csv('first.csv', [patientRow({ status: 'died', status_on: '2025-06-30' })]), { held: 6, filed: 9 }],
])('what comes in between planning and filing counts: %s', async (_, first, expected) => {
  const store = await clinic()
  let isIn = false
  const before = async () => {
    if (isIn) return
    isIn = true
    await take(store, [first])
  }
  const [report] = await take(store, [csv('r.csv', [...series('P1', 12), ...series('P2', 3)])], { call: callThrough(store, () => ({}), before) })
  expect(report).toMatchObject({ rows: 15, ...expected })
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('another version of a stored result is evaluated after it is filed: a value that was withdrawn no longer counts', async () => {
  const store = await clinic()
  const calcium = resultRow({ code: '17861-6', value: '3.6', unit: 'mmol/L', collected_at: '2026-11-20', accession: 'C1' })
  await take(store, [csv('r.csv', [...series('P1', 3), calcium])])
  expect(store.reader.standing('P1')?.rules).toContain('danger-calcium')
  await take(store, [csv('w.csv', [{ ...calcium, status: 'cancelled' }, ...series('P1', 4)])])
  expect(store.reader.standing('P1')?.rules).not.toContain('danger-calcium')
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

/** Everything the database keeps but addresses drawn by chance and the log, which has a number drawn for each call. */
function kept(store: Store): unknown {
  const db = fromOutside(store.url, { reading: true })
  const names = tableNames(db).filter((name) => !name.startsWith('trail') && !/address|identity|setting|migration/.test(name))
  const all = names.map((name) => [
    name,
    db
      .all(`SELECT * FROM ${name}`)
      .map((row) => JSON.stringify(row))
      .sort(),
  ])
  db.close()
  return all
}

const row = fc.record({
  patient_id: fc.constantFrom('P1', 'P2', 'P3'),
  accession: fc.constantFrom('A1', 'A2', ''),
  collected_at: fc.constantFrom('2025-01-05', '2025-03-05', '2025-03-05T08:00+01:00'),
  value: fc.constantFrom('14.2', '20', '20.0', '<1', 'trace (<1)', 'haemolysed'),
  status: fc.constantFrom('', '', '', 'preliminary', 'corrected', 'cancelled', 'entered-in-error'),
  reported_at: fc.constantFrom('', '2025-03-06', '2025-03-07'),
  code: fc.constantFrom('33358-3', '33358-3', '718-7', '99999-9'),
})

test('filing as planned leaves the same database as filing row by row', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.array(row, { minLength: 1, maxLength: 14 }), { minLength: 1, maxLength: 2 }), async (files) => {
      const stores = [await clinic(), await clinic()] as const
      for (const [at, rows] of files.entries()) {
        const file = csv(`${at}.csv`, rows)
        const call = { now: '2026-11-25T10:00:00.000Z' }
        await take(stores[0], [file], { call: { ...callOf(stores[0]), ...call } })
        await take(stores[1], [file], { call: { ...callThrough(stores[1], rowByRow), ...call } })
      }
      expect(kept(stores[0])).toEqual(kept(stores[1]))
      expect(granted(await recheck(callOf(stores[0]))).differences).toEqual([])
    }),
    runs(25),
  )
}, 120_000)
