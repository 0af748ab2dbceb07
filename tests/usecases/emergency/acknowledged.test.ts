import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import {
  acknowledgeEmergency,
  type Call,
  countEmergencies,
  endEmergency,
  openEmergency,
  openPatient,
  readEmergencies,
  readSession,
  signIn,
  signOut,
} from '../../../lib/usecases/index.ts'
import { patientTold } from '../../../lib/usecases/patientTold.ts'
import { freshStore } from '../../store/freshStore.ts'
import { fromOutside } from '../../store/outside.ts'
import { refusedBy } from '../../store/refusals.ts'
import { addPerson, granted, later, NOW, PASSWORD } from '../accounts/persons.ts'
import { inSession, REASON, takeClosed } from './closed.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
let emergencyId: number
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await takeClosed(store)
  ;({ emergencyId } = granted(await openEmergency(inSession(store, 'physician'), { patientId: 'P2', reason: REASON })))
})
afterEach(() => dispose())

const quality = (seconds: number): Call => inSession(store, 'quality', later(seconds))

describe('the quality team', () => {
  test('reads who, when, how long, why and what was opened, and of whom by pseudonym alone', async () => {
    granted(await openPatient(inSession(store, 'physician', later(60)), 'P2'))
    granted(await openPatient(inSession(store, 'physician', later(70)), 'P1'))
    const { waiting } = granted(await readEmergencies(quality(7200)))
    expect(waiting).toEqual([
      {
        emergencyId,
        openedBy: 'a physician',
        fromAt: NOW,
        toAt: later(3600),
        minutes: 60,
        state: 'ran out',
        reason: REASON,
        patient: expect.stringMatching(/^[2-9A-Y]{5}(-[2-9A-Y]{5}){2}$/),
        opened: [{ sequence: expect.any(Number), at: later(60) }],
        own: false,
        acknowledgedBy: null,
        acknowledgedAt: null,
        note: null,
      },
    ])
    expect(JSON.stringify(waiting)).not.toContain('P2')
    const { rows } = store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
    expect(rows[0]).toMatchObject({ action: 'emergency-views-shown', event: { emergencyIds: [emergencyId] } })
  })

  test('reads a pseudonym where there is one, and whoever may know the number the number', () => {
    expect(patientTold(quality(0), () => (id) => `pseudonym of ${id.length}`)('P2')).toBe('pseudonym of 2')
    expect(patientTold(inSession(store, 'administrator'), () => () => 'another')('P2')).toBe('P2')
  })

  test.each([
    ['runs', 60, null, 60],
    ['ended by the physician', 7200, 600, 10],
    ['ran out', 3600, null, 60],
  ] as const)('is told that it %s', async (state, at, endedAfter, minutes) => {
    if (endedAfter !== null) granted(await endEmergency(inSession(store, 'physician', later(endedAfter)), { emergencyId }))
    expect(granted(await readEmergencies(quality(at))).waiting).toMatchObject([{ state, minutes }])
  })

  test('acknowledges it once it has ended, once, with a note or without', async () => {
    expect(await acknowledgeEmergency(quality(60), { emergencyId, note: '' })).toMatchObject({
      ok: false,
      reason: expect.stringMatching(/^This view still runs/),
    })
    expect(granted(await countEmergencies(quality(7200)))).toBe(1)
    granted(await acknowledgeEmergency(quality(7200), { emergencyId, note: ' Asked the ward; as it says. ' }))
    expect(granted(await countEmergencies(quality(7200)))).toBe(0)
    const { waiting, acknowledged } = granted(await readEmergencies(quality(7300)))
    expect(waiting).toEqual([])
    expect(acknowledged).toMatchObject([{ acknowledgedBy: 'a quality', acknowledgedAt: later(7200), note: 'Asked the ward; as it says.' }])
    expect(await acknowledgeEmergency(quality(7300), { emergencyId, note: '' })).toMatchObject({
      reason: `Emergency view ${emergencyId} was acknowledged by a quality already.`,
    })
    expect(JSON.stringify(store.reader.trailPage({ actor: null, limit: 99, offset: 0 }))).not.toContain('Asked the ward')
  })

  test('never acknowledges a view of the own, in another role or in other letters either', async () => {
    const own = { ...quality(7200), actor: { ...quality(7200).actor, name: 'A Physician' } }
    expect(await acknowledgeEmergency(own, { emergencyId, note: '' })).toMatchObject({
      reason: expect.stringMatching(/^You opened this view yourself/),
    })
    expect(granted(await readEmergencies(own)).waiting).toMatchObject([{ own: true }])
    expect(await acknowledgeEmergency(quality(7200), { emergencyId: 99, note: '' })).toMatchObject({ kind: 'not-found' })
    expect(await acknowledgeEmergency(quality(7200), { emergencyId, note: 'ab' })).toMatchObject({ kind: 'invalid' })
    expect(granted(await countEmergencies(quality(7200)))).toBe(1)
  })
})

test('a view ends with its session, and the page says so', async () => {
  await addPerson(store, 'a doctor', 'physician')
  const { sessionId } = granted(await signIn(store, { name: 'a doctor', password: PASSWORD }, { now: new Date(NOW), requestId: 'r', address: null }))
  const session = await readSession(store, sessionId, { now: new Date(later(1)) })
  const call = inSession(store, 'physician', later(2), session?.sessionHash)
  const doctor = { ...call, actor: { ...call.actor, name: 'a doctor' } }
  const opened = granted(await openEmergency(doctor, { patientId: 'P2', reason: REASON }))
  granted(await signOut({ ...doctor, now: later(122) }, sessionId))
  expect(await readSession(store, sessionId, { now: new Date(later(123)) })).toBe(null)
  const view = granted(await readEmergencies(quality(123))).waiting.find((one) => one.emergencyId === opened.emergencyId)
  expect(view).toMatchObject({ state: 'ended with the session', minutes: 2, toAt: later(122) })
  granted(await acknowledgeEmergency(quality(124), { emergencyId: opened.emergencyId, note: '' }))
})

describe('the database', () => {
  test.each([
    ['changes no reason', "UPDATE emergency_view SET reason = 'another reason typed'", /never changed/],
    ['lengthens no view', "UPDATE emergency_view SET until_at = '2026-11-26T10:00:00.000Z'", /never changed/],
    ['removes none', 'DELETE FROM emergency_view', /never removed/],
    [
      'takes no acknowledgement of the own',
      "UPDATE emergency_view SET acknowledged_by = 'A PHYSICIAN', acknowledged_at = until_at",
      refusedBy(['check']),
    ],
    [
      'keeps none of more than an hour',
      "INSERT INTO emergency_view SELECT 2, opened_by, session_hash, patient_id, reason, from_at, '2026-11-25T11:00:01.000Z', NULL, NULL, NULL, NULL FROM emergency_view",
      refusedBy(['check']),
    ],
    [
      'replaces none',
      'INSERT OR REPLACE INTO emergency_view SELECT id, opened_by, session_hash, patient_id, reason, from_at, until_at, NULL, NULL, NULL, NULL FROM emergency_view',
      /follows the last one/,
    ],
  ])('%s', (_, sql, says) => {
    const outside = fromOutside(url)
    expect(() => outside.exec(sql)).toThrow(says)
    outside.close()
  })
})
