import { expect, test } from 'vitest'
import { day } from '../../lib/time/index.ts'
import { excludeResult, openPatient, proposePlan, publishPlan, resolveHeld } from '../../lib/usecases/index.ts'
import { callOf, granted } from '../usecases/accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../usecases/clinic.ts'
import { freshStore } from './freshStore.ts'

test('every change of the data makes the revision greater; looking, and taking the same in again, does not', async () => {
  const { store, dispose } = await freshStore()
  let last = store.reader.dataRevision()
  const changed = (): boolean => {
    const now = store.reader.dataRevision()
    const is = now > last
    expect(now).toBeGreaterThanOrEqual(last)
    last = now
    return is
  }
  const files = [csv('p.csv', [patientRow()]), csv('c.csv', courseRows()), csv('r.csv', [resultRow()])]
  await take(store, files)
  expect(changed()).toBe(true)
  await take(store, files)
  expect(changed()).toBe(false)
  granted(await openPatient(callOf(store, 'physician'), 'P1'))
  expect(changed()).toBe(false)
  await take(store, [csv('r2.csv', [resultRow({ value: '14.3', status: 'corrected' })])])
  expect(changed()).toBe(true)
  await take(store, [csv('p2.csv', [patientRow({ clinician: 'Dr North' })])])
  expect(changed()).toBe(true)
  await take(store, [csv('odd.csv', [resultRow({ code: '99999-9' })])])
  expect(changed()).toBe(true)
  const [held] = store.reader.heldQueue()
  granted(await resolveHeld(callOf(store), held?.id ?? 0, 'refuse', 'a test'))
  expect(changed()).toBe(true)
  const [result] = store.reader.versionsOfPatient('P1').filter(({ current }) => current)
  granted(await excludeResult(callOf(store, 'physician'), { patientId: 'P1', resultId: result?.result.id ?? 0, reason: 'a test' }))
  expect(changed()).toBe(true)
  const wish = { changes: { 'treatment.0.every': { days: 21 } }, from: day('2026-12-01'), basedOn: 1 }
  const { version } = granted(await proposePlan(callOf(store, 'physician'), { ...wish, note: 'a test' }))
  expect(changed()).toBe(false)
  granted(await publishPlan(callOf(store, 'administrator'), { version, from: wish.from }))
  expect(changed()).toBe(true)
  await dispose()
})
