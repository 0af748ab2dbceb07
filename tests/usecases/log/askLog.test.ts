import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  askLog,
  type Call,
  compareRecords,
  confirmMerge,
  type LogQuestion,
  openEmergency,
  openPatient,
  proposeMerge,
  readTrail,
  recordReview,
  showList,
  signIn,
} from '../../../lib/usecases/index.ts'
import { patientMeant } from '../../../lib/usecases/patientTold.ts'
import { freshStore } from '../../store/freshStore.ts'
import { granted, later } from '../accounts/persons.ts'
import { inSession, REASON, takeClosed } from '../emergency/closed.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeClosed(store)
})
afterEach(() => dispose())

const NOTHING = { patient: '', person: '', only: '', from: '', to: '', before: null } as const
const FIRST_PAGE = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 50 } as const

const nurse = (seconds = 0): Call => inSession(store, 'navigator', later(seconds))
const physician = (seconds = 0): Call => inSession(store, 'physician', later(seconds))
const administrator = (): Call => inSession(store, 'administrator', '2026-11-29T10:00:00.000Z')
const quality = (): Call => inSession(store, 'quality', '2026-11-29T10:00:00.000Z')
const ask = async (question: Partial<LogQuestion>, call = administrator()) =>
  granted(await askLog(call, { question: 'every-entry', ...NOTHING, ...question }))
const told = ({ rows }: { rows: readonly { actor: string; action: string }[] }) => rows.map(({ actor, action }) => [actor, action])
const lastEvent = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event

describe('who was shown a patient', () => {
  test('is told of pages, lists, and records side by side; not of what was refused or only changed', async () => {
    granted(await openPatient(nurse(1), 'P1'))
    granted(await showList(nurse(2), FIRST_PAGE))
    granted(await compareRecords(physician(3), { fromId: 'P1', intoId: 'P2' }))
    await recordReview(nurse(4), { patientId: 'P1', rule: 'pd-serum', key: '[]', note: 'a test', bringBackOn: null })
    await openPatient(nurse(5), 'P2')
    expect(told(await ask({ question: 'who-opened', patient: ' P1 ' }))).toEqual([
      ['a physician', 'records-compared'],
      ['a navigator', 'list-shown'],
      ['a navigator', 'patient-opened'],
    ])
    expect(told(await ask({ question: 'who-opened', patient: 'P2' }))).toEqual([['a physician', 'records-compared']])
    expect(told(await ask({ question: 'who-opened', patient: 'P1', person: 'a physician' }))).toEqual([['a physician', 'records-compared']])
  })

  test('is told of both records of a patient, each entry once, whichever number is typed', async () => {
    granted(await openPatient(nurse(1), 'P1'))
    granted(await compareRecords(physician(2), { fromId: 'P2', intoId: 'P1' }))
    granted(await openPatient(nurse(3), 'P1'))
    const { mergeId } = granted(await proposeMerge(nurse(4), { fromId: 'P2', intoId: 'P1', reason: 'registered twice' }))
    granted(await confirmMerge(physician(5), { mergeId }))
    for (const patient of ['P1', 'P2']) {
      const { rows, total } = await ask({ question: 'who-opened', patient })
      expect([rows.map(({ action }) => action), total]).toEqual([['patient-opened', 'records-compared', 'patient-opened'], 3])
    }
  })

  test('is asked by pseudonym where the reader works under them, and the entry of the question says whom, never what was typed', async () => {
    granted(await openPatient(nurse(1), 'P1'))
    const meant = (call: Call, typed: string) => patientMeant(call, typed, () => (id) => (id === 'P1' ? 'HERON-7' : 'OTHER-1'))
    const question = { question: 'who-opened', ...NOTHING, patient: 'heron-7' } as const
    const { rows } = granted(await askLog(quality(), question, meant))
    expect(told({ rows })).toEqual([['a navigator', 'patient-opened']])
    expect(JSON.stringify(rows)).not.toContain('P1')
    expect(lastEvent()).toMatchObject({ action: 'log-read', asked: { question: 'who-opened', patientId: 'P1' } })
    expect(JSON.stringify(lastEvent())).not.toMatch(/heron/i)
    expect(await askLog(quality(), { ...question, patient: 'P1' }, meant)).toMatchObject({ ok: false, kind: 'not-found' })
  })

  test('of nobody is answered in the same words to everybody, and logged without what was typed', async () => {
    const typed = 'Hazel, born 1950'
    for (const call of [administrator(), quality()]) {
      expect(await askLog(call, { question: 'who-opened', ...NOTHING, patient: typed })).toEqual({
        ok: false,
        kind: 'not-found',
        reason: 'Nobody is known by what was typed. Check it.',
      })
      expect(lastEvent()).toEqual({ action: 'log-read', scope: 'all', asked: { question: 'who-opened', patientId: null } })
    }
  })
})

test('which patients a person was shown, in a period', async () => {
  granted(await openPatient(nurse(1), 'P1'))
  granted(await openPatient(physician(2), 'P1'))
  granted(await openPatient(inSession(store, 'navigator', '2026-11-26T08:00:00.000Z'), 'P1'))
  const question = { question: 'what-opened', person: 'a navigator' } as const
  expect(told(await ask(question))).toEqual(Array.from({ length: 2 }, () => ['a navigator', 'patient-opened']))
  expect((await ask({ ...question, from: '2026-11-25', to: '2026-11-25' })).rows.map(({ at }) => at)).toEqual([later(1)])
  expect((await ask({ ...question, from: '2026-11-26' })).rows.map(({ at }) => at)).toEqual(['2026-11-26T08:00:00.000Z'])
  expect((await ask({ ...question, to: '2026-11-24' })).total).toBe(0)
})

test('what failed, and by whom and from where most often', async () => {
  const nobody = { name: 'nobody', password: 'not this one' }
  for (const at of [1, 2, 3]) await signIn(store, nobody, { now: new Date(later(at)), requestId: 'r', address: '10.0.0.9' })
  await openPatient(nurse(4), 'P2')
  const { rows, failures, total } = await ask({ question: 'failures' })
  expect([total, rows.map(({ action, address }) => [action, address])[0]]).toEqual([4, ['access-refused', null]])
  expect(failures).toEqual([
    { actor: '(unknown name)', address: '10.0.0.9', action: 'sign-in', count: 3, lastAt: later(3) },
    { actor: 'a navigator', address: null, action: 'access-refused', count: 1, lastAt: later(4) },
  ])
  expect((await ask({ question: 'failures', person: 'a navigator' })).failures).toHaveLength(1)
})

test('emergency views, with the pages opened in them', async () => {
  granted(await openEmergency(physician(1), { patientId: 'P2', reason: REASON }))
  granted(await openPatient(physician(2), 'P2'))
  granted(await openPatient(physician(3), 'P1'))
  expect(told(await ask({ question: 'emergency-views' }))).toEqual([
    ['a physician', 'patient-opened'],
    ['a physician', 'emergency-opened'],
  ])
})

test('any kind of entry, by page: none twice, none left out, and the count is of all pages', async () => {
  for (let at = 0; at < 120; at++) granted(await openPatient(nurse(at), 'P1'))
  granted(await openPatient(physician(200), 'P1'))
  const seen: number[] = []
  const totals = new Set<number>()
  for (let before: number | null = null, page = 0; page === 0 || before !== null; page++) {
    const answer = await ask({ only: 'patient-opened', person: 'a navigator', before })
    seen.push(...answer.rows.map(({ sequence }) => sequence))
    totals.add(answer.total)
    before = answer.next
  }
  expect([seen.length, new Set(seen).size, [...totals]]).toEqual([120, 120, [120]])
  expect(seen).toEqual(seen.toSorted((a, b) => b - a))
})

test.each([
  ['no patient', { question: 'who-opened', patient: '  ' }, 'Type whom the question is about.'],
  ['no person', { question: 'what-opened' }, 'Choose whose entries the question is about.'],
  ['somebody unknown', { person: 'nobody of this name' }, 'That person has left no entry.'],
  ['no such action', { only: "x' OR 1=1" }, 'The log knows no such kind of entry.'],
  ['no day', { from: '2026-02-30' }, 'A day is written YYYY-MM-DD.'],
  ['days the wrong way round', { from: '2026-11-02', to: '2026-11-01' }, 'The first day comes after the last.'],
] as const)('is refused with %s', async (_, question, reason) => {
  expect(await askLog(administrator(), { question: 'every-entry', ...NOTHING, ...question })).toEqual({ ok: false, kind: 'invalid', reason })
})

test('a page of the whole log goes on where the one before ended, whatever is added meanwhile', async () => {
  for (let at = 0; at < 60; at++) granted(await openPatient(nurse(at), 'P1'))
  const first = granted(await readTrail(quality(), null))
  granted(await openPatient(nurse(70), 'P1'))
  const second = granted(await readTrail(quality(), first.next))
  expect([first.rows.length, second.rows[0]?.sequence]).toEqual([50, (first.rows.at(-1)?.sequence ?? 0) - 1])
  expect(second.next).toBe(null)
})

test('a clock that was set back leaves nothing out of a period, and brings nothing in', async () => {
  const opened = async (at: string) => granted(await openPatient(inSession(store, 'navigator', at), 'P1'))
  for (const at of ['2026-11-26T23:00:00.000Z', '2026-11-27T10:00:00.000Z', '2026-11-26T10:00:00.000Z', '2026-11-27T12:00:00.000Z']) await opened(at)
  const on = async (day: string) => {
    const { rows, total } = await ask({ question: 'what-opened', person: 'a navigator', from: day, to: day })
    return [total, ...rows.map(({ at }) => at)]
  }
  expect(await on('2026-11-27')).toEqual([2, '2026-11-27T12:00:00.000Z', '2026-11-27T10:00:00.000Z'])
  expect(await on('2026-11-26')).toEqual([2, '2026-11-26T10:00:00.000Z', '2026-11-26T23:00:00.000Z'])
  const whole = await ask({ from: '2026-11-27', to: '2026-11-27' })
  expect([whole.total, whole.rows.length]).toEqual([2, 2])
  expect((await ask({ question: 'who-opened', patient: 'P1', from: '2026-11-27', to: '2026-11-27' })).total).toBe(2)
})
