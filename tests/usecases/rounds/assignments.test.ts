import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { assignPatient, disableAccount, endRound, readRound, startRound } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { addPerson, callOf, granted, logged } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, take } from '../clinic.ts'
import { list, on, takeTwo, whom } from './week.ts'

const DAY = '2026-11-09'
let fresh: { store: Store; dispose: () => Promise<void> }
let number: Record<string, number>
beforeEach(async () => {
  fresh = await freshStore()
  const { store } = fresh
  await takeTwo(store, on(store, '2026-11-02'))
  await addPerson(store, 'a navigator', 'navigator')
  await addPerson(store, 'a physician', 'physician')
  await addPerson(store, 'a quality', 'quality')
  number = Object.fromEntries(store.reader.accounts().map(({ id, name }) => [name, id]))
})
afterEach(() => fresh.dispose())

const to = (name: string) => number[name] ?? 0
const lastOf = (patientId = 'P1') => fresh.store.reader.lastAssignment(patientId)?.id ?? null
const give = (patientId: string, name: string | null, shown = lastOf(patientId), day = DAY) =>
  assignPatient(on(fresh.store, day), { patientId, to: name === null ? null : to(name), shown })

test('a patient is given to somebody, found under it, and taken back; each in the log', async () => {
  const { store } = fresh
  granted(await give('P1', 'a physician'))
  expect(await whom(on(store, DAY, 'physician'), { has: 'me' })).toEqual(['P1'])
  expect(await whom(on(store, DAY), { has: 'me' })).toEqual([])
  expect(await whom(on(store, DAY), { has: to('a physician') })).toEqual(['P1'])
  expect(await whom(on(store, DAY), { has: 'nobody' })).toEqual(['P2'])
  const { rows, round } = await list(on(store, DAY, 'physician'))
  expect(rows.find(({ patientId }) => patientId === 'P1')?.round?.assigned).toMatchObject({ to: 'a physician', isYou: true, disabled: false })
  expect(round).toMatchObject({ nobodys: 1, having: [{ name: 'a physician', patients: 1 }] })
  granted(await give('P1', null))
  expect(await whom(on(store, DAY), { has: 'nobody', sort: 'patient' })).toEqual(['P1', 'P2'])
  expect(logged(store).filter(({ action }) => action === 'patient-assigned')).toHaveLength(2)
})

test('two at once: the second is told who took the patient and when, and the first keeps them', async () => {
  const { store } = fresh
  const shown = lastOf()
  const both = await Promise.all([give('P1', 'a navigator', shown), give('P1', 'a physician', shown)])
  expect(both.map(({ ok }) => ok)).toEqual([true, false])
  const [, second] = both
  expect(second?.ok === false && second.reason).toMatch(
    /^Meanwhile a navigator changed this \(Monday 2026-11-09 \d\d:00\): a navigator has this patient\. Look again/,
  )
  expect(store.reader.lastAssignment('P1')?.account?.name).toBe('a navigator')
})

test('taken and given back meanwhile is told too: the number of the last assignment is another', async () => {
  const shown = lastOf()
  granted(await give('P1', 'a navigator'))
  granted(await give('P1', null))
  const late = await give('P1', 'a physician', shown)
  expect(!late.ok && late.reason).toContain('nobody has this patient any more')
})

test.each([
  ['an account that may not open the patient', 'P1', 'a quality', /neither navigator nor physician/],
  ['an account that is none', 'P1', 'nobody at all', /No account has this number/],
  ['a patient nobody follows', 'P9', 'a physician', /Only a patient on the review list/],
  ['nobody, where nobody has the patient', 'P1', null, /Nobody has this patient now/],
])('%s is refused, and nothing is written', async (_, patientId, name, reason) => {
  const head = fresh.store.reader.trailHead()
  const outcome = await give(patientId, name)
  expect(!outcome.ok && outcome.reason).toMatch(reason)
  expect(fresh.store.reader.trailHead()).toEqual(head)
})

test("a disabled account's patients say so, and can be given to somebody else; nobody can be given to it", async () => {
  const { store } = fresh
  granted(await give('P1', 'a physician'))
  granted(await disableAccount(callOf(store), { name: 'a physician' }))
  const { rows, round } = await list(on(store, DAY))
  expect(rows.find(({ patientId }) => patientId === 'P1')?.round?.assigned).toMatchObject({ to: 'a physician', disabled: true })
  expect(round.having).toMatchObject([{ name: 'a physician', disabled: true }])
  expect(round.people.map(({ name }) => name)).toEqual(['a navigator'])
  expect(await give('P2', 'a physician')).toMatchObject({ ok: false, kind: 'invalid' })
  granted(await give('P1', 'a navigator'))
})

test('whoever leaves the list is nobody to be given, and is counted no more', async () => {
  const { store } = fresh
  granted(await give('P1', 'a physician'))
  await take(store, [csv('p.csv', [patientRow({ status: 'discharged', status_on: '2026-11-09' })]), csv('c.csv', courseRows('P2'))], {
    call: on(store, DAY),
  })
  expect((await list(on(store, '2026-11-10'))).round.having).toEqual([])
  expect(await give('P1', 'a navigator')).toMatchObject({ ok: false, kind: 'not-found' })
})

test('the summary of a round says who had whom when it ended, whatever was given since', async () => {
  const { store } = fresh
  granted(await startRound(on(store, DAY, 'navigator', '08')))
  granted(await give('P1', 'a physician'))
  granted(await endRound(on(store, DAY, 'navigator', '12'), { roundId: 1 }))
  granted(await give('P1', 'a navigator', lastOf(), '2026-11-10'))
  expect(granted(await readRound(on(store, '2026-11-11'), 1))).toMatchObject({ having: [{ name: 'a physician', patients: 1 }], nobodys: 1 })
})

test('an assignment is never changed or removed', async () => {
  granted(await give('P1', 'a physician'))
  const db = fromOutside(fresh.store.url)
  for (const sql of ["UPDATE assignment SET made_by = 'x'", 'DELETE FROM assignment']) expect(() => db.exec(sql), sql).toThrow(/never/)
  db.close()
})
