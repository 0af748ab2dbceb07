import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { recheck } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { csv, patientRow, resultRow, valuesOf } from '../clinic.ts'
import { decideAs, takeFrom, waitingIds, waitingReasons } from './queue.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeFrom(store, null, [csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })])])
})
afterEach(async () => {
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  await dispose()
})

const local = (changes = {}) => resultRow({ code: 'HB', value: '3.6', unit: 'g/dL', collected_at: '2026-06-01', ...changes })
const haemoglobin = (changes = {}) => local({ value: '10.6', ...changes })

describe('what a code means', () => {
  test('for this row only: it is filed, the row beside it waits, and nothing is remembered', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin(), haemoglobin({ accession: 'A2' })])])
    const [first = 0, second = 0] = waitingIds(store)
    const decided = granted(await decideAs(store, first, { kind: 'code', code: '718-7' }))
    expect(decided).toMatchObject({ done: 1, stay: [], mappingId: null, sentence: '1 row of 1 patient was filed.' })
    expect([waitingIds(store), valuesOf(store), store.reader.allMappings()]).toEqual([[second], ['10.6'], []])
    const row = store.reader.heldRow(first)
    expect([row?.fields.code, row?.row, row?.decided]).toEqual(['HB', expect.stringContaining('HB'), { code: '718-7' }])
    expect(store.reader.versionsOfPatient('P1')[0]?.result).toMatchObject({
      code: '718-7',
      analyte: 'haemoglobin',
      provenance: { valueText: '10.6' },
    })
  })

  test('remembered, for all alike: all are filed, another source is not, and the next file is read by it', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin(), haemoglobin({ accession: 'A2' }), haemoglobin({ patient_id: 'P2' })])])
    await takeFrom(store, 'south', [csv('s.csv', [haemoglobin({ accession: 'A3' })])])
    const wish = { alike: true, remember: true }
    const decided = granted(await decideAs(store, waitingIds(store)[0] ?? 0, { kind: 'code', code: '718-7' }, wish))
    expect(decided).toMatchObject({
      done: 3,
      mappingId: 1,
      sentence: '3 rows of 2 patients were filed. Mapping 1 is kept for later files of this source.',
    })
    expect(store.reader.heldQueue().map(({ source }) => source)).toEqual(['south'])
    const [report] = await takeFrom(store, 'north', [csv('later.csv', [haemoglobin({ accession: 'A4' })])])
    expect([report?.filed, report?.held]).toEqual([1, 0])
    expect(logged(store).map(({ action }) => action)).toEqual(expect.arrayContaining(['mapping-decided', 'held-resolved']))
    expect(store.reader.rowsOfMapping(1)).toHaveLength(4)
  })

  test('a mapping that is in force already is said, and rows are filed by it; another meaning of the same text is refused', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin(), haemoglobin({ accession: 'A2', unit: 'xyz' })])])
    const [first = 0, second = 0] = waitingIds(store)
    granted(await decideAs(store, first, { kind: 'code', code: '718-7' }, { remember: true }))
    const again = granted(await decideAs(store, second, { kind: 'code', code: '718-7' }, { remember: true }))
    expect(again.sentence).toContain('Mapping 1 was in force already.')
    expect(again.stay).toHaveLength(1)
    expect(waitingReasons(store)).toEqual(['unit-unknown'])
    await takeFrom(store, null, [csv('x.csv', [haemoglobin({ patient_id: 'P9' })])])
    await takeFrom(store, 'north', [csv('y.csv', [haemoglobin({ patient_id: 'P9' })])])
    const unknown = store.reader.heldQueue().find(({ source, reason }) => source === 'north' && reason === 'unknown-patient')
    expect(unknown).toMatchObject({ patientId: 'P9' })
  })

  test.each([
    ['a code that must never map', '2464-6', /cerebrospinal/],
    ['a code of nothing followed', '1234-5', /nothing that is followed/],
  ])('%s is refused', async (_, code, says) => {
    await takeFrom(store, 'north', [csv('r.csv', [haemoglobin()])])
    expect(await decideAs(store, 1, { kind: 'code', code })).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringMatching(says) })
  })

  test('what the row itself names and never stands for something followed is never made to', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [resultRow({ code: '2464-6' })])])
    const refused = await decideAs(store, 1, { kind: 'code', code: '2465-3' })
    expect(refused).toMatchObject({ ok: false, reason: expect.stringContaining('cerebrospinal') })
  })

  test('without a source nothing is remembered, and why is said', async () => {
    await takeFrom(store, null, [csv('r.csv', [haemoglobin()])])
    const refused = await decideAs(store, 1, { kind: 'code', code: '718-7' }, { remember: true })
    expect(refused).toMatchObject({ ok: false, reason: expect.stringContaining('Nobody said who sent the file') })
    granted(await decideAs(store, 1, { kind: 'code', code: '718-7' }))
    expect(valuesOf(store)).toEqual(['10.6'])
  })
})

describe('what a unit means', () => {
  test('it has to convert for the analyte', async () => {
    await takeFrom(store, 'north', [csv('r.csv', [resultRow({ code: '718-7', value: '10.6', unit: 'gramm' })])])
    const said = async (unit: string) => decideAs(store, 1, { kind: 'unit', unit })
    expect(await said('mg/24 h')).toMatchObject({ ok: false, reason: expect.stringContaining('a unit of something else') })
    expect(await said('gramm')).toMatchObject({ ok: false, reason: expect.stringContaining('no UCUM unit') })
    granted(await said('g/dL'))
    const value = store.reader.versionsOfPatient('P1')[0]?.result
    expect(value).toMatchObject({ value: { printedUnit: 'g/dL' }, provenance: { valueText: '10.6', unitText: 'gramm' } })
    expect(value?.value.kind === 'number' && value.value.kept.low.toFixed()).toBe('106')
  })

  test('remembered beside its code; no unit, and a unit that can be read, are for these rows only', async () => {
    const row = (unit: string, accession: string, value = '10.6') => resultRow({ code: '718-7', value, unit, accession })
    await takeFrom(store, 'north', [csv('r.csv', [row('gramm', 'A1'), row('', 'A2'), row('g/L', 'A3', '800')])])
    const remember = { remember: true }
    expect(granted(await decideAs(store, 1, { kind: 'unit', unit: 'g/dL' }, remember))).toMatchObject({ done: 1, mappingId: 1 })
    expect(await decideAs(store, 2, { kind: 'unit', unit: 'g/dL' }, remember)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('profile'),
    })
    expect(await decideAs(store, 3, { kind: 'unit', unit: 'mg/dL' }, remember)).toMatchObject({
      ok: false,
      reason: expect.stringContaining('as it stands'),
    })
    granted(await decideAs(store, 2, { kind: 'unit', unit: 'g/dL' }))
    expect(store.reader.mapping(1)).toMatchObject({ kind: 'unit', received: 'gramm', ofCode: '718-7', meaning: 'g/dL', madeBy: 'a navigator' })
    expect(waitingReasons(store)).toEqual(['out-of-range'])
  })
})

test('of all alike the ones left out wait, and those that still cannot be read stay, each with its reason', async () => {
  const rows = [
    haemoglobin(),
    haemoglobin({ accession: 'A2', value: '10,6' }),
    haemoglobin({ accession: 'A3' }),
    haemoglobin({ accession: 'A4', value: '900' }),
  ]
  await takeFrom(store, 'north', [csv('r.csv', rows)])
  const decided = granted(await decideAs(store, 1, { kind: 'code', code: '718-7' }, { alike: true, except: [3] }))
  expect(decided.stay.map(({ heldId }) => heldId)).toEqual([2, 4])
  expect(waitingIds(store)).toEqual([2, 3, 4])
  expect(waitingReasons(store)).toEqual(['decimal-comma', 'unknown-code', 'out-of-range'])
  // What was decided is kept: when the rest is settled the code is known.
  expect(store.reader.heldRow(2)?.decided).toEqual({ code: '718-7' })
})

test('a correction waits for its original, whichever is decided first, and then is what counts', async () => {
  for (const first of ['original', 'correction'] as const) {
    const fresh = await freshStore()
    await takeFrom(fresh.store, null, [csv('patients.csv', [patientRow()])])
    await takeFrom(fresh.store, 'north', [csv('r.csv', [haemoglobin(), haemoglobin({ status: 'corrected', value: '9.9' })])])
    const ids = first === 'original' ? [1, 2] : [2, 1]
    for (const id of ids) if (waitingIds(fresh.store).includes(id)) granted(await decideAs(fresh.store, id, { kind: 'code', code: '718-7' }))
    expect([waitingIds(fresh.store), valuesOf(fresh.store)], first).toEqual([[], ['9.9']])
    await fresh.dispose()
  }
})

test('all alike are refused with one reason, each with its log row; the number of rows alike is that of the source, reason and text', async () => {
  await takeFrom(store, 'north', [csv('r.csv', [haemoglobin(), haemoglobin({ accession: 'A2' }), local({ accession: 'A3', code: 'CA' })])])
  expect(store.reader.heldAlikeCounts(1)).toEqual({ rows: 2, patients: 1 })
  expect(granted(await decideAs(store, 1, { kind: 'refuse' }, { alike: true })).sentence).toBe('2 rows of 1 patient were refused.')
  expect(waitingIds(store)).toEqual([3])
  expect(logged(store).filter(({ action }) => action === 'held-resolved')).toHaveLength(2)
  expect(await decideAs(store, 1, { kind: 'code', code: '718-7' })).toMatchObject({
    ok: false,
    reason: expect.stringContaining('decided by a navigator already'),
  })
})

test('files without a source are alike within one file only', async () => {
  await takeFrom(store, null, [csv('r.csv', [haemoglobin(), haemoglobin({ accession: 'A2' })])])
  await takeFrom(store, null, [csv('s.csv', [haemoglobin({ accession: 'A3' })])])
  expect([store.reader.heldAlike(1), store.reader.heldAlike(3)]).toEqual([[1, 2], [3]])
  expect(store.reader.heldCounts()).toEqual({ groups: 2, rows: 3 })
})
