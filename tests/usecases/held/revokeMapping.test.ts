import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { confirmPatient, listMappings, proposePatient, recheck, revokeMapping } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, valuesOf } from '../clinic.ts'
import { callBy, decideAs, takeFrom, waitingIds, waitingReasons, whatCounts } from './queue.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await take(store)
})
afterEach(async () => {
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  await dispose()
})

function take(into: Store) {
  const course = csv('course.csv', [...courseRows(), ...courseRows('P2')])
  return takeFrom(into, null, [csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })]), course])
}

const revoke = (mappingId: number, into = store) => revokeMapping(callOf(into, 'navigator'), { mappingId, reason: 'it was the wrong test' })

// The same local code over a year; a correction, a withdrawal, and a row somebody else sends.
const rows = [
  resultRow({ code: 'CA', value: '2.3', unit: 'mmol/L', collected_at: '2026-01-05', accession: 'A1' }),
  resultRow({ code: 'CA', value: '2.4', unit: 'mmol/L', collected_at: '2026-03-05', accession: 'A2' }),
  resultRow({ code: 'CA', value: '3.2', unit: 'mmol/L', collected_at: '2026-03-05', accession: 'A2', status: 'corrected' }),
  resultRow({ code: 'CA', value: '3.0', unit: 'mmol/L', collected_at: '2026-11-20', accession: 'A3' }),
  resultRow({ code: 'CA', value: '3.1', unit: 'mmol/L', collected_at: '2026-11-20', accession: 'A4', patient_id: 'P2' }),
]

describe('a revoked mapping', () => {
  test('takes its rows back: they wait with their old reason, nothing of them counts, the versions stay', async () => {
    await takeFrom(store, 'north', [csv('r.csv', rows.slice(0, 2))])
    granted(await decideAs(store, 1, { kind: 'code', code: '1995-0' }, { alike: true, remember: true }))
    await takeFrom(store, 'north', [csv('s.csv', rows.slice(2))])
    expect(valuesOf(store)).toEqual(['2.3', '3.2', '3.0'])
    expect(granted(await listMappings(callOf(store, 'navigator')))).toMatchObject([{ id: 1, analyte: 'ionised-calcium', rows: 5, patients: 2 }])
    const revoked = granted(await revoke(1))
    expect(revoked).toMatchObject({ rows: 5, patients: 2 })
    expect([valuesOf(store), valuesOf(store, 'P2')]).toEqual([[], []])
    expect(waitingReasons(store)).toEqual(['unknown-code', 'unknown-code', 'unknown-code', 'unknown-code', 'unknown-code'])
    expect(store.reader.heldQueue().map(({ fields, returnedBy }) => [fields.code, returnedBy])).toEqual(Array(5).fill(['CA', 1]))
    expect(store.reader.versionsOfPatient('P1').map(({ current }) => current)).toEqual([false, false, false, false])
    expect(store.reader.standing('P1')?.answer).toContain('held-results')
    expect(granted(await listMappings(callOf(store)))).toMatchObject([{ rows: 0, revoked: { by: 'a navigator', reason: 'it was the wrong test' } }])
    expect(logged(store).map(({ action }) => action)).toEqual(expect.arrayContaining(['mapping-revoked', 'mapping-taken-back']))
    expect(await revoke(1)).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('already') })
    // What the file said of itself is as it was.
    expect(store.reader.heldRowsOfFile(3)).toHaveLength(2)
  })

  test.each(['waited for it', 'came after it'])(
    'takes back the correction of a row it takes back, which %s: without its original it waits',
    async (how) => {
      const original = resultRow({ code: 'CA', value: '2.3', unit: 'mmol/L', collected_at: '2026-01-05', accession: 'A1' })
      const corrected = resultRow({ code: '17861-6', value: '2.9', unit: 'mmol/L', collected_at: '2026-01-05', accession: 'A1', status: 'corrected' })
      await takeFrom(store, 'north', [csv('r.csv', how === 'waited for it' ? [corrected, original] : [original])])
      const waiting = store.reader.heldQueue().find(({ reason }) => reason === 'unknown-code')
      granted(await decideAs(store, waiting?.id ?? 0, { kind: 'code', code: '17861-6' }, { alike: true, remember: true }))
      if (how === 'came after it') await takeFrom(store, null, [csv('s.csv', [corrected])])
      expect([valuesOf(store), waitingReasons(store)]).toEqual([['2.9'], []])
      granted(await revoke(1))
      expect([valuesOf(store), waitingReasons(store).toSorted()]).toEqual([[], ['correction-before-original', 'unknown-code']])
      expect(granted(await recheck(callOf(store))).differences).toEqual([])
      const again = store.reader.heldQueue().find(({ reason }) => reason === 'unknown-code')
      granted(await decideAs(store, again?.id ?? 0, { kind: 'code', code: '17861-6' }, { alike: true, remember: true }))
      expect([valuesOf(store), waitingReasons(store)]).toEqual([['2.9'], []])
    },
  )

  test.each(['code', 'unit', 'same again'] as const)(
    'map, revoke, map to the right thing (%s) says what the right mapping had said at once',
    async (what) => {
      const told = what === 'unit' ? rows.map((row) => ({ ...row, code: '17861-6', value: `${row.value}`, unit: 'unit7' })) : rows
      const act = (right: boolean) =>
        what === 'unit'
          ? ({ kind: 'unit', unit: right ? 'mmol/L' : 'mol/m3' } as const)
          : ({ kind: 'code', code: right || what === 'same again' ? '17861-6' : '1995-0' } as const)
      await takeFrom(store, 'north', [csv('r.csv', told.slice(0, 2))])
      granted(await decideAs(store, 1, act(false), { alike: true, remember: true }))
      await takeFrom(store, 'north', [csv('s.csv', told.slice(2))])
      granted(await revoke(1))
      const last = waitingIds(store).at(-1) ?? 0
      expect(granted(await decideAs(store, last, act(true), { alike: true, remember: true })).done).toBe(5)

      const other = await freshStore()
      await take(other.store)
      await takeFrom(other.store, 'north', [csv('r.csv', told.slice(0, 2))])
      granted(await decideAs(other.store, 1, act(true), { alike: true, remember: true }))
      await takeFrom(other.store, 'north', [csv('s.csv', told.slice(2))])
      expect(await whatCounts(store)).toEqual(await whatCounts(other.store))
      expect(waitingIds(store)).toEqual([])
      await other.dispose()
    },
  )

  test('leaves what came in another way: a correction a person had filed as the first report counts', async () => {
    const corrected = { ...rows[0], code: '17861-6', value: '2.5', status: 'corrected' }
    await takeFrom(store, 'south', [csv('s.csv', [corrected])])
    granted(await decideAs(store, 1, { kind: 'file' }))
    await takeFrom(store, 'north', [csv('r.csv', rows.slice(0, 1))])
    granted(await decideAs(store, 2, { kind: 'code', code: '17861-6' }, { remember: true }))
    expect(valuesOf(store)).toEqual(['2.5'])
    granted(await revoke(1))
    expect(valuesOf(store)).toEqual(['2.5'])
    expect(waitingReasons(store)).toEqual(['unknown-code'])
  })

  test('lets a report that only repeated it count for itself', async () => {
    await takeFrom(store, 'north', [csv('r.csv', rows.slice(0, 1))])
    granted(await decideAs(store, 1, { kind: 'code', code: '17861-6' }, { remember: true }))
    const [repeat] = await takeFrom(store, 'south', [csv('s.csv', [{ ...rows[0], code: '17861-6' }])])
    expect(repeat?.known).toBe(1)
    granted(await revoke(1))
    expect(valuesOf(store)).toEqual(['2.3'])
    expect(waitingReasons(store)).toEqual(['unknown-code'])
  })

  test('of an identifier gives the rows back to nobody, also those of a course', async () => {
    const course = courseRows('X1').map((row) => ({ ...row, on: row.on?.replace('2024', '2023') ?? '' }))
    await takeFrom(store, 'north', [csv('r.csv', [resultRow({ patient_id: 'X1' })]), csv('c.csv', course)])
    const wish = { heldId: 1, patientId: 'P1', alike: true, remember: true, reason: 'by telephone' }
    const before = JSON.stringify(store.reader.loadHistory('P1')?.history.events)
    granted(await proposePatient(callBy(store, 'ann'), wish))
    granted(await confirmPatient(callBy(store, 'ben'), { heldId: 1 }))
    granted(await proposePatient(callBy(store, 'ann'), { ...wish, heldId: waitingIds(store)[0] ?? 0 }))
    granted(await confirmPatient(callBy(store, 'ben'), { heldId: waitingIds(store)[0] ?? 0 }))
    expect([waitingIds(store), valuesOf(store)]).toEqual([[], ['14.2']])
    expect(JSON.stringify(store.reader.loadHistory('P1')?.history.events)).not.toBe(before)
    granted(await revoke(1))
    expect(valuesOf(store)).toEqual([])
    expect(JSON.stringify(store.reader.loadHistory('P1')?.history.events)).toBe(before)
    expect(store.reader.heldQueue().map(({ patientId, reason }) => [patientId, reason])).toEqual(Array(3).fill(['X1', 'unknown-patient']))
  })

  test('that was interrupted takes the rest back when it is revoked again', async () => {
    await takeFrom(store, 'north', [csv('r.csv', rows)])
    granted(await decideAs(store, 1, { kind: 'code', code: '17861-6' }, { alike: true, remember: true }))
    await store.record(callOf(store), (tx) => ({
      value: tx.revokeMapping({ mappingId: 1, by: 'ann', at: callOf(store).now, reason: 'it was the wrong test' }),
      events: [{ action: 'mapping-revoked', mappingId: 1, kind: 'code' }],
    }))
    expect(valuesOf(store)).not.toEqual([])
    expect(granted(await revoke(1))).toMatchObject({ rows: 5 })
    expect([valuesOf(store), waitingIds(store).length]).toEqual([[], 5])
  })
})
