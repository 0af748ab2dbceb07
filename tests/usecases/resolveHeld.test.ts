import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { resolveHeld } from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted, logged } from './accounts/persons.ts'
import { csv, patientRow, resultRow, take, valuesOf } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const PATIENTS = csv('patients.csv', [patientRow()])

function heldIds(): number[] {
  return store.reader.heldQueue().map((row) => row.id)
}

function decide(heldId: number, decision: 'file' | 'refuse', reason = 'checked on the telephone') {
  return resolveHeld(callOf(store, 'navigator'), heldId, decision, reason)
}

test('an unknown patient: held, still held when asked too early, filed once the patient is there', async () => {
  await take(store, [csv('r.csv', [resultRow()])])
  const [id = 0] = heldIds()
  expect(await decide(id, 'file')).toMatchObject({ ok: false, kind: 'invalid' })
  expect(heldIds()).toEqual([id])
  await take(store, [PATIENTS])
  expect(store.reader.standing('P1')?.answer).toContain('held-results')
  granted(await decide(id, 'file'))
  expect([heldIds(), valuesOf(store)]).toEqual([[], ['14.2']])
  expect(store.reader.standing('P1')?.answer).not.toContain('held-results')
  expect(store.reader.standing('P1')?.historyRevision).toBe(store.reader.patient('P1')?.revision)
  expect(logged(store).at(-1)).toEqual({ actor: 'a navigator', role: 'navigator', action: 'held-resolved', outcome: 'success' })
})

test('a conflicting value filed by a person becomes the version that counts; the one before is kept', async () => {
  await take(store, [PATIENTS, csv('one.csv', [resultRow()]), csv('two.csv', [resultRow({ value: '17.0' })])])
  granted(await decide(heldIds()[0] ?? 0, 'file'))
  expect(valuesOf(store)).toEqual(['17.0'])
  expect(store.reader.versionsOfPatient('P1').map(({ current, result }) => [result.provenance.valueText, current])).toEqual([
    ['14.2', false],
    ['17.0', true],
  ])
})

test('a correction whose original never comes can be filed on its own', async () => {
  await take(store, [PATIENTS, csv('c.csv', [resultRow({ status: 'corrected', value: '15.0' })])])
  granted(await decide(heldIds()[0] ?? 0, 'file'))
  expect([heldIds(), valuesOf(store)]).toEqual([[], ['15.0']])
})

test('an original filed from the queue lets its waiting correction be filed, each with its log row', async () => {
  await take(store, [csv('original.csv', [resultRow()])])
  await take(store, [PATIENTS, csv('correction.csv', [resultRow({ status: 'corrected', value: '15.0' })])])
  const [original = 0] = heldIds()
  expect(heldIds()).toHaveLength(2)
  granted(await decide(original, 'file'))
  expect([heldIds(), valuesOf(store)]).toEqual([[], ['15.0']])
  expect(logged(store).filter(({ action }) => action === 'held-resolved')).toHaveLength(2)
})

describe('a patient row that differs', () => {
  test.each([
    ['birth date', { birth_date: '1951-03-12' }, { birthDate: '1951-03-12', sex: 'female' }],
    ['sex', { sex: 'male' }, { birthDate: '1950-03-12', sex: 'male' }],
    ['birth date and sex', { birth_date: '1951-03-12', sex: 'male' }, { birthDate: '1951-03-12', sex: 'male' }],
  ])('in %s is held; filed by a person it is what counts, and what it leaves out stays', async (_, told, expected) => {
    await take(store, [csv('patients.csv', [patientRow({ clinician: 'Dr Alder' })])])
    await take(store, [csv('other.csv', [patientRow(told)])])
    expect(store.reader.patient('P1')?.patient).toMatchObject({ birthDate: '1950-03-12', sex: 'female' })
    granted(await decide(heldIds()[0] ?? 0, 'file'))
    expect(store.reader.patient('P1')?.patient).toMatchObject({ ...expected, clinician: 'Dr Alder' })
    expect([heldIds(), store.reader.patient('P1')?.version]).toEqual([[], 2])
  })
})

test.each([
  ['unit-missing', { unit: '' }],
  ['unknown-code', { code: '2464-6' }],
  ['decimal-comma', { value: '14,2' }],
  ['out-of-range', { value: '400' }],
  ['collected-in-future', { collected_at: '2027-01-01' }],
])('what cannot be read (%s) is never filed by saying so; refusing takes it out', async (reason, changes) => {
  await take(store, [PATIENTS, csv('r.csv', [resultRow(changes)])])
  const [row] = store.reader.heldQueue()
  expect(row?.reason).toBe(reason)
  expect(await decide(row?.id ?? 0, 'file')).toMatchObject({ ok: false, kind: 'invalid' })
  expect(heldIds()).toEqual([row?.id])
  granted(await decide(row?.id ?? 0, 'refuse'))
  expect([heldIds(), valuesOf(store)]).toEqual([[], []])
  expect(store.reader.heldRow(row?.id ?? 0)?.resolved).toMatchObject({ by: 'a navigator', decision: 'refuse', reason: 'checked on the telephone' })
  expect(store.reader.standing('P1')?.answer).not.toContain('held-results')
})

test('a row is decided once, with a reason, and only if there is one', async () => {
  await take(store, [PATIENTS, csv('r.csv', [resultRow({ unit: '' })])])
  const [id = 0] = heldIds()
  expect(await decide(id, 'refuse', ' ')).toMatchObject({ ok: false, kind: 'invalid' })
  expect(await decide(id + 1, 'refuse')).toMatchObject({ ok: false, kind: 'not-found' })
  granted(await decide(id, 'refuse'))
  expect(await decide(id, 'refuse')).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('decided by a navigator already') })
  expect(await decide(id, 'file')).toMatchObject({ ok: false, kind: 'invalid', reason: expect.stringContaining('decided by a navigator already') })
})
