import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  type Call,
  changeRole,
  compareRecords,
  confirmMerge,
  endEmergency,
  openEmergency,
  openPatient,
  ownEmergencies,
  patientDocument,
  proposeMerge,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { addPerson, callOf, granted, later, logged } from '../accounts/persons.ts'
import { csv, patientRow, take } from '../clinic.ts'
import { inSession, REASON, takeClosed } from './closed.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeClosed(store)
})
afterEach(() => dispose())

const physician = (seconds = 0, session?: string): Call => inSession(store, 'physician', later(seconds), session)
const open = (call = physician(), patientId = 'P2') => openEmergency(call, { patientId, reason: REASON })
const lastOf = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]

describe('a closed record', () => {
  test.each(['navigator', 'physician'] as const)(
    'is refused to a %s with since when and what opens it, and the log knows whose it was',
    async (role) => {
      const outcome = await openPatient(inSession(store, role), 'P2')
      expect(outcome).toEqual({
        ok: false,
        kind: 'not-allowed',
        closed: true,
        reason:
          'This record is closed since 2026-11-01: the patient is no longer followed here. A physician can open it as an emergency view, for reading only.',
      })
      expect(lastOf()).toMatchObject({ action: 'access-refused', outcome: 'failure', patientId: 'P2', object: 'a closed record' })
    },
  )

  test('opens at the console, and one who is followed opens to a nurse as before', async () => {
    expect(granted(await patientDocument(callOf(store), 'P2', null)).patientId).toBe('P2')
    const { patientId, emergency } = granted(await openPatient(inSession(store, 'navigator'), 'P1'))
    expect([patientId, emergency]).toEqual(['P1', null])
  })

  test('is closed by a recorded leaving as by the patients file, as the review list has it', async () => {
    await take(store, [csv('left.csv', [{ patient_id: 'P1', on: '2026-11-20', event: 'left', reason: 'transferred' }])])
    expect(await openPatient(inSession(store, 'navigator'), 'P1')).toMatchObject({
      closed: true,
      reason: expect.stringContaining('since 2026-11-20'),
    })
  })

  test('says so where nobody recorded the day', async () => {
    await take(store, [csv('gone.csv', [patientRow({ status: 'discharged' })])])
    expect(await openPatient(inSession(store, 'navigator'), 'P1')).toMatchObject({ reason: expect.stringContaining('since a day nobody recorded') })
  })

  test('opens again to everybody who cares once the patients file says followed', async () => {
    await take(store, [csv('back.csv', [patientRow({ patient_id: 'P2', family_name: 'Hazel', status: 'followed', status_on: '2026-11-10' })])])
    expect(granted(await openPatient(inSession(store, 'navigator'), 'P2')).patientId).toBe('P2')
  })

  test('cannot be read as of a day on which it was followed', async () => {
    const outcome = await openPatient(inSession(store, 'navigator'), 'P2', '2026-06-01' as never)
    expect(outcome).toMatchObject({ ok: false, closed: true })
  })

  test('stays open to the work of finding out whose a record is', async () => {
    const nurse = inSession(store, 'navigator')
    expect(granted(await compareRecords(nurse, { fromId: 'P2', intoId: 'P1' })).from.patientId).toBe('P2')
    expect(granted(await proposeMerge(nurse, { fromId: 'P2', intoId: 'P1', reason: 'registered twice' })).mergeId).toBe(1)
  })
})

describe('an emergency view', () => {
  test('opens one closed record, for reading, with its reason on the page and the purpose in the log', async () => {
    const { emergencyId, patientId } = granted(await open())
    const page = granted(await openPatient(physician(60), 'P2'))
    expect(page.emergency).toMatchObject({ emergencyId, reason: REASON, untilAt: later(3600), secondsLeft: 3540 })
    expect(page.emergency?.until).toMatch(/^\d\d:\d\d$/)
    expect([patientId, page.name]).toEqual(['P2', 'Hazel'])
    expect(lastOf()).toMatchObject({ action: 'patient-opened', purpose: 'ETREAT', patientId: 'P2', event: { emergencyId } })
    expect(granted(await ownEmergencies(physician(60)))).toMatchObject([{ emergencyId, patientId: 'P2' }])
  })

  test('runs to 59:59 and is over at 60:00', async () => {
    granted(await open())
    expect((await openPatient(physician(59 * 60 + 59), 'P2')).ok).toBe(true)
    expect(await openPatient(physician(60 * 60), 'P2')).toMatchObject({ ok: false, closed: true })
    expect(granted(await ownEmergencies(physician(60 * 60)))).toEqual([])
  })

  test('opens nothing in another session, to another person, or to a nurse of the same session', async () => {
    granted(await open())
    expect((await openPatient(physician(1, 'another session'), 'P2')).ok).toBe(false)
    const { actor } = physician()
    expect((await openPatient({ ...physician(1), actor: { ...actor, name: 'somebody else' } }, 'P2')).ok).toBe(false)
    expect((await openPatient({ ...physician(1), actor: { ...actor, role: 'navigator' } }, 'P2')).ok).toBe(false)
    expect((await openPatient(physician(1), 'P2')).ok).toBe(true)
  })

  test('ends when its physician ends it, once, and nobody else can', async () => {
    const { emergencyId } = granted(await open())
    const stranger = { ...physician(5), actor: { ...physician().actor, name: 'somebody else' } }
    expect(await endEmergency(stranger, { emergencyId })).toMatchObject({ ok: false, kind: 'not-found' })
    granted(await endEmergency(physician(10), { emergencyId }))
    expect(await openPatient(physician(11), 'P2')).toMatchObject({ ok: false, closed: true })
    expect(await endEmergency(physician(12), { emergencyId })).toMatchObject({ ok: false, reason: 'This emergency view has ended already.' })
    expect(granted(await open(physician(13))).emergencyId).toBe(emergencyId + 1)
  })

  test.each([
    ['too short a reason', 'P2', 'too short', 'invalid', 'The reason is too short: it takes at least 10 characters, and is kept.'],
    ['nine letters and blanks', 'P2', '  123456789  ', 'invalid', 'The reason is too short: it takes at least 10 characters, and is kept.'],
    ['501 characters', 'P2', 'x'.repeat(501), 'invalid', 'The reason has 501 characters; 500 are the most.'],
    [
      'somebody who is followed',
      'P1',
      REASON,
      'invalid',
      'This patient is followed: the page opens from the review list, without an emergency view.',
    ],
    ['a number nobody has', 'Nobody, Norma', REASON, 'not-found', 'No record can be opened by what was typed. Check the number.'],
  ])('is refused for %s', async (_, patientId, reason, kind, says) => {
    expect(await openEmergency(physician(), { patientId, reason })).toEqual({ ok: false, kind, reason: says })
    expect(store.reader.emergenciesWaiting()).toEqual([])
  })

  test.each(['0123456789', 'x'.repeat(500)])('takes a reason of 10 to 500 characters', async (reason) => {
    expect(granted(await openEmergency(physician(), { patientId: ' P2 ', reason })).patientId).toBe('P2')
  })

  test('for a number nobody has leaves an entry without what was typed', async () => {
    await open(physician(), 'Nobody, Norma')
    expect(lastOf()).toMatchObject({ action: 'access-refused', object: 'a number nobody has', patientId: null })
    expect(JSON.stringify(store.reader.trailPage({ actor: null, limit: 99, offset: 0 }))).not.toContain('Norma')
  })

  test('is open once at a time, and its reason is nowhere in the log', async () => {
    granted(await open())
    expect(await open(physician(60))).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/^This record is open to you already, until \d\d:\d\d\.$/),
    })
    expect(JSON.stringify(store.reader.trailPage({ actor: null, limit: 99, offset: 0 }))).not.toContain(REASON)
  })

  test('belongs to a session in the browser', async () => {
    expect(await open(callOf(store))).toMatchObject({ ok: false, kind: 'invalid' })
  })

  test('opens the kept record by either number, and is not lost when records are joined meanwhile', async () => {
    granted(await open())
    await take(store, [csv('again.csv', [patientRow({ patient_id: 'P3', family_name: 'Hazel', status: 'died', status_on: '2026-11-01' })])])
    const { mergeId } = granted(await proposeMerge(inSession(store, 'navigator'), { fromId: 'P2', intoId: 'P3', reason: 'registered twice' }))
    granted(await confirmMerge(inSession(store, 'physician'), { mergeId }))
    expect(granted(await openPatient(physician(60), 'P2')).patientId).toBe('P3')
    expect(granted(await openPatient(physician(60), 'P3')).emergency).toMatchObject({ reason: REASON })
  })

  test('is no reason for anybody who no longer is a physician', async () => {
    await addPerson(store, 'a physician', 'physician')
    granted(await open())
    granted(await changeRole(callOf(store), { name: 'a physician', role: 'quality' }))
    const { actor } = physician()
    expect(await openPatient({ ...physician(60), actor: { ...actor, role: 'quality' } }, 'P2')).toMatchObject({ ok: false, kind: 'not-allowed' })
  })

  test('leaves its steps in the log', async () => {
    const { emergencyId } = granted(await open())
    granted(await endEmergency(physician(10), { emergencyId }))
    expect(logged(store).slice(-2)).toEqual(
      ['emergency-opened', 'emergency-ended'].map((action) => ({ actor: 'a physician', role: 'physician', action, outcome: 'success' })),
    )
  })
})
