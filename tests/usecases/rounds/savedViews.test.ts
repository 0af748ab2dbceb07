import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { removeView, saveView, type ViewWish } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { addPerson, granted, logged } from '../accounts/persons.ts'
import { csv, patientRow, take } from '../clinic.ts'
import { list, on, QUERY, takeTwo } from './week.ts'

const DAY = '2026-11-09'
let fresh: { store: Store; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
  await takeTwo(fresh.store, on(fresh.store, '2026-11-02'))
  await addPerson(fresh.store, 'a navigator', 'navigator')
  await addPerson(fresh.store, 'a physician', 'physician')
})
afterEach(() => fresh.dispose())

const WISH: ViewWish = { name: 'Mine, longest first', shared: false, query: { ...QUERY, has: 'me', sort: 'listed' }, shown: null }
const save = (wish: Partial<ViewWish> = {}, role: 'navigator' | 'physician' = 'navigator') =>
  saveView(on(fresh.store, DAY, role), { ...WISH, ...wish })
const seenBy = async (role: 'navigator' | 'physician') => (await list(on(fresh.store, DAY, role))).round.views

test("a view of one person is in their sight alone, one of the clinic in everybody's; neither keeps a pseudonym, a page or a round", async () => {
  granted(await save({ query: { ...WISH.query, pseudonym: '7K3PA-9TXCM-4HRDE', page: 4, since: 3 } }))
  granted(await save({ name: 'Active disease', shared: true, query: { ...QUERY, phase: 'active' } }))
  expect((await seenBy('navigator')).map(({ name, shared }) => [name, shared])).toEqual([
    ['Active disease', true],
    ['Mine, longest first', false],
  ])
  expect((await seenBy('physician')).map(({ name }) => name)).toEqual(['Active disease'])
  const mine = (await seenBy('navigator'))[1]
  expect(Object.keys(mine?.asks ?? {}).toSorted()).toEqual([
    'clinician',
    'descending',
    'handed',
    'has',
    'mine',
    'news',
    'phase',
    'rule',
    'sort',
    'window',
  ])
  expect(mine?.asks).toMatchObject({ has: 'me', sort: 'listed' })
})

test('changed meanwhile: the second is told who changed it and when; theirs is not kept', async () => {
  const { viewId: id } = granted(await save({ name: 'Active disease', shared: true, query: { ...QUERY, phase: 'active' } }))
  const change = { name: 'Active disease', shared: true, shown: { id, version: 1 } }
  expect(granted(await save({ ...change, query: { ...QUERY, phase: 'mgus' } }, 'physician'))).toEqual({ viewId: id, version: 2 })
  const late = await save({ ...change, query: { ...QUERY, window: 'same-day' } })
  expect(!late.ok && late.reason).toMatch(/^Meanwhile a physician changed this view \(Monday 2026-11-09/)
  const removed = await removeView(on(fresh.store, DAY), { id, version: 1 })
  expect(!removed.ok && removed.reason).toContain('Meanwhile a physician changed this view')
  expect((await seenBy('navigator'))[0]?.asks).toMatchObject({ phase: 'mgus', window: null })
})

test('removed by one, it is out of sight, and told to whoever changes or removes it after', async () => {
  const { viewId: id } = granted(await save({ name: 'Active disease', shared: true, query: { ...QUERY, phase: 'active' } }))
  granted(await removeView(on(fresh.store, DAY, 'physician'), { id, version: 1 }))
  expect(await seenBy('navigator')).toEqual([])
  const late = await removeView(on(fresh.store, DAY), { id, version: 1 })
  expect(!late.ok && late.reason).toMatch(/^Meanwhile a physician removed this view/)
  expect(logged(fresh.store).map(({ action }) => action)).toEqual(expect.arrayContaining(['view-saved', 'view-removed']))
})

test("nobody changes or removes somebody else's own view, or learns of it", async () => {
  const { viewId: id } = granted(await save())
  expect(await removeView(on(fresh.store, DAY, 'physician'), { id, version: 1 })).toMatchObject({ ok: false, kind: 'not-found' })
  expect(await save({ shown: { id, version: 1 } }, 'physician')).toMatchObject({ ok: false, kind: 'not-found' })
  expect(await removeView(on(fresh.store, DAY), { id: 99, version: 1 })).toMatchObject({ ok: false, kind: 'not-found' })
})

test.each([
  ['', /missing/],
  ['ab', /missing/],
  ['x'.repeat(61), /60 are the most/],
  ['born 1950-03-12', /holds a date/],
  ['a\tb and more', /control character/],
  ['about PATIENT-77 only', /holds a patient's number/],
  ['ACTIVE disease', /A view of the clinic is called Active disease already/],
])('the name "%s" is refused', async (name, reason) => {
  const { store } = fresh
  await take(store, [csv('p.csv', [patientRow({ patient_id: 'PATIENT-77' })])], { call: on(store, DAY) })
  granted(await save({ name: 'Active disease', shared: true, query: { ...QUERY, phase: 'active' } }))
  const outcome = await save({ name })
  expect(!outcome.ok && outcome.reason).toMatch(reason)
})

test('what asks nothing is not kept', async () => {
  expect(await save({ query: QUERY })).toMatchObject({ ok: false, kind: 'invalid' })
})

test('a version is never changed or removed', async () => {
  granted(await save())
  const db = fromOutside(fresh.store.url)
  for (const sql of ["UPDATE saved_view SET name = 'other'", 'DELETE FROM saved_view']) expect(() => db.exec(sql), sql).toThrow(/never/)
  db.close()
})
