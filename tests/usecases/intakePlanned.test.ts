import fc from 'fast-check'
import { afterEach, expect, test } from 'vitest'
import type { Store, Tx } from '../../lib/store/index.ts'
import { readerOf } from '../../lib/store/reader.ts'
import { txOf } from '../../lib/store/tx.ts'
import { type Call, decideHeld, type IncomingFile, recheck } from '../../lib/usecases/index.ts'
import { counting } from '../store/counting.ts'
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
const filedAsPlanned = (): Partial<Tx> => ({ patient: notUnderTheLock, versionsOf: notUnderTheLock, versionsOfEach: notUnderTheLock })
/** Nor is anybody evaluated. */
const asPlanned = (): Partial<Tx> => ({ ...filedAsPlanned(), loadCounted: notUnderTheLock, loadHistory: notUnderTheLock })
/** Nothing that was planned holds: each row is read and filed by itself. */
const rowByRow = (tx: Tx): Partial<Tx> => ({ sourceKnowledge: (source) => ({ ...tx.sourceKnowledge(source), version: 'another' }) })

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

/** Remembers for the source of these tests that its code CA is ionised calcium. */
async function mapped(store: Store): Promise<void> {
  await take(store, [csv('m.csv', [calcium('P3', 0)])])
  const wish = { heldId: 1, act: { kind: 'code', code: '17861-6' }, alike: true, except: [], remember: true, reason: 'asked the laboratory' } as const
  granted(await decideHeld(callOf(store, 'navigator'), wish))
}

const calcium = (patient_id: string, at: number, changes: Row = {}): Row =>
  resultRow({
    patient_id,
    code: 'CA',
    value: '2.3',
    unit: 'mmol/L',
    collected_at: `2025-${String(at + 1).padStart(2, '0')}-15`,
    accession: `M${at}`,
    ...changes,
  })

test('rows that wait, are refused or are read with a mapping are filed as planned with the others, and repetitions of a mapped one are kept', async () => {
  const store = await clinic()
  await mapped(store)
  const odd = [
    resultRow({ code: '99999-9' }),
    resultRow({ patient_id: 'P2', collected_at: 'yesterday' }),
    resultRow({ patient_id: 'P8' }),
    resultRow({ patient_id: 'P8', accession: 'A2' }),
  ]
  const rows = [...series('P1', 3), calcium('P1', 0), calcium('P1', 0), ...odd, calcium('P2', 1, { value: '3.6' })]
  const [report] = await take(store, [csv('r.csv', rows)], { call: callThrough(store, filedAsPlanned) })
  expect(report).toMatchObject(only({ rows: 10, filed: 5, known: 1, held: 3, refused: 1 }))
  expect(report?.problems.map(({ line, outcome, reason }) => [line, outcome, reason])).toEqual([
    [7, 'held', 'unknown-code'],
    [8, 'refused', 'bad-date'],
    [9, 'held', 'unknown-patient'],
    [10, 'held', 'unknown-patient'],
  ])
  expect(store.reader.standing('P1')?.answer).toContain('held-results')
  expect(store.reader.standing('P2')?.rules).toContain('danger-calcium')
  const [again] = await take(store, [csv('again.csv', [calcium('P1', 0)])], { call: callThrough(store, asPlanned) })
  expect(again).toMatchObject(only({ rows: 1, known: 1 }))
  const db = fromOutside(store.url, { reading: true })
  const repeats = db.all<{ line: number }>('SELECT line FROM mapped_repeat ORDER BY id')
  db.close()
  expect(repeats.map(({ line }) => line)).toEqual([6, 2])
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('however many rows a file has of a patient, it asks as often: what is stored is asked for at once, and kept at once', async () => {
  const store = await clinic()
  await mapped(store)
  const { connection, count, close } = counting(store.url, { reading: false })
  const record: Store['record'] = async (_, change) => {
    connection.begin()
    const { value } = change(txOf(connection))
    connection.commit()
    return value
  }
  const call = { ...callOf(store), store: { ...store, reader: readerOf(connection), record } }
  const rows = (from: number, to: number): Row[] =>
    Array.from({ length: to - from }, (_, at) => from + at).flatMap((at) => {
      const sample = { accession: `N${at}` }
      return [
        resultRow(sample),
        calcium('P1', 0, sample),
        resultRow({ ...sample, code: '99999-9' }),
        resultRow({ ...sample, collected_at: 'yesterday' }),
      ]
    })
  const questions = async (name: string, some: readonly Row[]): Promise<number> => {
    const before = count()
    await take(store, [csv(name, some)], { call })
    return count() - before
  }
  try {
    await questions('first.csv', rows(0, 2))
    const few = await questions('few.csv', rows(1, 4))
    expect(await questions('many.csv', rows(3, 24))).toBe(few)
  } finally {
    close()
  }
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
  patient_id: fc.constantFrom('P1', 'P2', 'P3', 'P9', ''),
  accession: fc.constantFrom('A1', 'A2', ''),
  collected_at: fc.constantFrom('2025-01-05', '2025-03-05', '2025-03-05T08:00+01:00', 'yesterday'),
  value: fc.constantFrom('14.2', '20', '20.0', '<1', 'trace (<1)', 'haemolysed'),
  status: fc.constantFrom('', '', '', 'preliminary', 'corrected', 'cancelled', 'entered-in-error'),
  reported_at: fc.constantFrom('', '2025-03-06', '2025-03-07'),
  code: fc.constantFrom('33358-3', '33358-3', '718-7', '99999-9', 'CA'),
})

test('filing as planned leaves the same database as filing row by row', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(fc.array(row, { minLength: 1, maxLength: 14 }), { minLength: 1, maxLength: 2 }), async (files) => {
      const stores = [await clinic(), await clinic()] as const
      for (const store of stores) await mapped(store)
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
