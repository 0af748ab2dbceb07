import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { heldPage, heldRows, openHeld } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, patientRow, resultRow } from '../clinic.ts'
import { decideAs, takeFrom } from './queue.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeFrom(store, null, [csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })])])
})
afterEach(() => dispose())

const NOTHING = { code: '', unit: '' }
const haemoglobin = (on: string, value: string, changes = {}) =>
  resultRow({ code: '718-7', value, unit: 'g/L', collected_at: on, accession: `H ${on}`, ...changes })

describe('a held row beside the course of its patient', () => {
  beforeEach(async () => {
    const before = ['2026-01-01', '2026-02-01', '2026-03-01', '2026-04-01', '2026-05-01'].map((on, at) => haemoglobin(on, String(101 + at)))
    await takeFrom(store, null, [csv('h.csv', [...before, haemoglobin('2026-07-01', '99')])])
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin('2026-06-01', '10.4', { unit: 'gramm' })])])
  })

  test('shows where reading stopped, and the values before and after with their own day', async () => {
    const row = granted(await openHeld(callOf(store, 'navigator'), 1, NOTHING))
    expect(row).toMatchObject({
      reason: 'unit-unknown',
      understood: { analyte: 'haemoglobin', value: null, patientKnown: true, collectedOn: '2026-06-01' },
    })
    expect(row.neighbours?.values.map(({ on, says, isHeld }) => [on, says, isHeld])).toEqual([
      ['2026-02-01', '102 g/L', false],
      ['2026-03-01', '103 g/L', false],
      ['2026-04-01', '104 g/L', false],
      ['2026-05-01', '105 g/L', false],
      ['2026-06-01', 'cannot be read', true],
      ['2026-07-01', '99 g/L', false],
    ])
    expect(row.offers).toMatchObject({ codes: null, unit: 'g/L', patient: false })
  })

  test.each([
    ['g/dL', '104 g/L', '10.4 gramm', false],
    ['g/L', '10.4 g/L', null, true],
  ])('tried as %s it would say %s, beside its neighbours; tenfold off is pointed out', async (unit, says, printed, odd) => {
    const row = granted(await openHeld(callOf(store, 'navigator'), 1, { code: '', unit }))
    expect(row.tried).toMatchObject({ problem: null, stopped: null })
    expect(row.understood?.value).toBe(says)
    if (printed !== null) expect(row.understood?.printed).toBe(printed.replace('gramm', 'g/dL'))
    expect(row.neighbours?.values.find(({ isHeld }) => isHeld)?.number).toBe(Number.parseFloat(says))
    expect([row.alike.odd, row.alike.shown[0]?.odd]).toEqual([odd ? 1 : 0, odd])
    expect(store.reader.heldRow(1)?.decided).toBe(null)
  })

  test('what cannot be tried says why', async () => {
    const row = granted(await openHeld(callOf(store, 'navigator'), 1, { code: '', unit: 'mg/24 h' }))
    expect(row.tried?.problem).toContain('a unit of something else')
  })

  test('an administrator is shown the text of the row and no patient; the log has whose course was shown, and only then', async () => {
    const told = granted(await openHeld(callOf(store, 'administrator'), 1, NOTHING))
    expect([told.seesPatients, told.neighbours, told.alike.shown[0]?.beside, told.fields.length > 3]).toEqual([false, null, null, true])
    const last = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]
    expect(last()).toMatchObject({ actor: 'a administrator', action: 'held-opened', patientId: null })
    granted(await openHeld(callOf(store, 'physician'), 1, NOTHING))
    expect(last()).toMatchObject({ actor: 'a physician', action: 'held-opened', patientId: 'P1' })
  })

  test('a row of another unit beside the same code is not alike; one of another patient is', async () => {
    const other = { patient_id: 'P2', unit: 'gramm' }
    await takeFrom(store, 'north', [csv('s.csv', [haemoglobin('2026-06-02', '10.1', other), haemoglobin('2026-06-03', '10.1', { unit: 'gr' })])])
    expect(granted(await openHeld(callOf(store, 'navigator'), 1, NOTHING)).alike).toMatchObject({ rows: 2, patients: 2 })
  })
})

describe('the queue', () => {
  test('stands by what can hide a danger, then the unknown code, then the rest; the latest sample first', async () => {
    const rows = [
      resultRow({ code: '2465-3', value: '5', unit: 'gg', accession: 'I' }),
      resultRow({ code: 'LOCAL', accession: 'L' }),
      haemoglobin('2026-03-01', '100', { unit: 'gg' }),
      haemoglobin('2026-03-02', '100', { unit: 'gg' }),
      resultRow({ code: '17861-6', value: '2.4', unit: '', collected_at: '2026-10-01', accession: 'C' }),
    ]
    const patients = csv('p.csv', [patientRow({ birth_date: '1960-01-01' })])
    await takeFrom(store, 'north', [csv('r.csv', rows), patients])
    const page = granted(await heldPage(callOf(store, 'navigator'), 1))
    expect(page.groups.map(({ rank, texts, rows: count }) => [rank, texts.join(' '), count])).toEqual([
      [0, '17861-6', 1],
      [0, '718-7 gg', 2],
      [1, 'LOCAL', 1],
      [2, '2465-3 gg', 1],
      [4, 'P1 1960-01-01 female', 1],
    ])
    expect([page.groupCount, page.rowCount, page.pages]).toEqual([5, 6, 1])
  })

  test('pages through its groups', async () => {
    const rows = Array.from({ length: 30 }, (_, at) => resultRow({ code: `L${at}`, accession: `A${at}` }))
    await takeFrom(store, 'north', [csv('r.csv', rows)])
    const [one, two] = [await heldPage(callOf(store), 1), await heldPage(callOf(store), 2)].map((page) => granted(page))
    expect([one?.groups.length, two?.groups.length, two?.pages]).toEqual([25, 5, 2])
    const ids = [...(one?.groups ?? []), ...(two?.groups ?? [])].map(({ heldId }) => heldId)
    expect(new Set(ids).size).toBe(30)
  })

  test('as JSON says the source and how far each row could be read, also by what was decided of it', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin('2026-06-01', '10,4', { code: 'HB', unit: 'g/dL' })])])
    const rows = async () => granted(await heldRows(callOf(store)))
    expect(await rows()).toMatchObject([{ source: 'north', understood: { analyte: null, value: null, collectedOn: '2026-06-01' } }])
    granted(await decideAs(store, 1, { kind: 'code', code: '718-7' }))
    expect(await rows()).toMatchObject([{ reason: 'decimal-comma', understood: { analyte: 'haemoglobin', value: null, keptUnit: 'g/L' } }])
  })
})
