import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { auditEventOf } from '../../lib/trail/index.ts'
import {
  acknowledgeEmergency,
  activate,
  addAccount,
  askLog,
  type Call,
  endEmergency,
  excludeResult,
  exportLog,
  giveCode,
  healthOf,
  joinIdentity,
  offerSecondFactor,
  openEmergency,
  openPatientAt,
  patientMergesAt,
  presentCode,
  readEmergencies,
  readSession,
  recheckStored,
  retireLog,
  sendHead,
  setUpSecondFactor,
  signInByIdentity,
  turnOffSecondFactor,
} from '../../lib/usecases/index.ts'
import { folderOf, freshStore } from '../store/freshStore.ts'
import { addPerson, callOf, granted, later, NOW, PASSWORD } from './accounts/persons.ts'
import { csv, patientRow, take } from './clinic.ts'
import { recent, resultId, takeDamaged } from './decisions/damaged.ts'
import { inSession, REASON, takeClosed } from './emergency/closed.ts'
import { daysOf, write } from './log/written.ts'
import { join } from './merges/joined.ts'
import { ADDRESS, codeAt, ownCall, tryAt } from './secondFactor/device.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  vi.stubEnv('NEXTAUTH_SECRET', 'only for these tests, only for these tests')
  ;({ store, dispose } = await freshStore())
})
afterEach(async () => {
  vi.unstubAllEnvs()
  await dispose()
})

const IDENTITY = { issuer: 'https://sign-on.example', subject: 'subject-of-nurse' }
const facts = (seconds: number) => ({ now: new Date(later(seconds)), requestId: 'r', address: ADDRESS })
const opened = (sessionId: string, seconds: number) => readSession(store, sessionId, { now: new Date(later(seconds)) })
const head = () => store.reader.trailHead().sequence

describe('what is stored, held against the log', () => {
  test('is sound where a decision stands in a record that is joined to another', async () => {
    await takeDamaged(store, [recent('718-7', '99', 'g/L', { patient_id: 'P2' })])
    granted(await excludeResult(callOf(store, 'physician'), { patientId: 'P2', resultId: resultId(store, '90', 'P2'), reason: 'haemolysed' }))
    await join(store)
    granted(await excludeResult(callOf(store, 'physician'), { patientId: 'P1', resultId: resultId(store, '99', 'P2'), reason: 'haemolysed' }))
    expect(granted(await recheckStored(callOf(store)))).toMatchObject({ decisions: 2, faults: [] })
  })
})

describe('a password chosen with a one-time code', () => {
  test('ends what was signed in with the old one after the code was given', async () => {
    await addPerson(store, 'nurse', 'navigator')
    const { code } = granted(await giveCode(callOf(store), { name: 'nurse' }))
    const { sessionId } = granted(await tryAt(store, 1))
    granted(await activate(callOf(store, 'none', later(2)), { name: 'nurse', code, password: `${PASSWORD} again` }))
    expect(await opened(sessionId, 3)).toBeNull()
    expect(store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event).toEqual({
      action: 'sessions-ended',
      account: 'nurse',
      count: 1,
    })
  })
})

describe('single sign-on', () => {
  test('stays what a session began with, whatever is done with the second factor in it', async () => {
    await addPerson(store, 'nurse', 'navigator')
    const { code } = granted(await giveCode(callOf(store), { name: 'nurse' }))
    const presented = granted(await presentCode(callOf(store, 'none'), { name: 'nurse', code }))
    granted(await joinIdentity(store, presented, IDENTITY, facts(0)))
    const { sessionId } = granted(await signInByIdentity(store, IDENTITY, facts(1)))
    const session = await opened(sessionId, 1)
    const own = await ownCall(store, 1)
    const call: Call = { ...own, actor: { ...own.actor, sessionHash: session?.sessionHash ?? null } }
    const { secret, offer } = granted(await offerSecondFactor(call))
    granted(await setUpSecondFactor(call, { offer, password: PASSWORD, code: codeAt(secret, 1) }))
    granted(await turnOffSecondFactor({ ...call, now: later(60) }, { password: PASSWORD, code: codeAt(secret, 60) }))
    expect(await opened(sessionId, 61)).toMatchObject({ means: 'provider' })
  })

  test('joins nobody by a code that lapsed because the clock was set back', async () => {
    const { code } = granted(await addAccount(callOf(store), { name: 'nurse', role: 'navigator' }))
    const presented = granted(await presentCode(callOf(store, 'none'), { name: 'nurse', code }))
    expect(await joinIdentity(store, presented, IDENTITY, facts(-3600))).toMatchObject({ ok: false, kind: 'not-allowed' })
  })
})

describe('an emergency view', () => {
  const REASONED = { patientId: 'P2', reason: REASON }
  const quality = (seconds: number): Call => inSession(store, 'quality', later(seconds))

  async function physician(): Promise<Call> {
    await takeClosed(store)
    await addPerson(store, 'doctor', 'physician')
    return ownCall(store, 0, { name: 'doctor' })
  }

  test('ends when its session stood idle, also where nobody asked for that session since', async () => {
    const call = await physician()
    const { emergencyId } = granted(await openEmergency(call, REASONED))
    expect(granted(await readEmergencies(quality(899))).waiting).toMatchObject([{ state: 'runs' }])
    expect(await acknowledgeEmergency(quality(899), { emergencyId, note: '' })).toMatchObject({ ok: false, kind: 'invalid' })
    const idle = { state: 'ended with the session', toAt: later(900), minutes: 15 }
    expect(granted(await readEmergencies(quality(900))).waiting).toMatchObject([idle])
    await store.record({ ...call, now: later(1800) }, (tx) => {
      tx.endSession(call.actor.sessionHash ?? '', later(1800), 'idle')
      return { value: null, events: [{ action: 'sessions-ended', account: 'doctor', count: 1 }] }
    })
    expect(granted(await readEmergencies(quality(7200))).waiting).toMatchObject([idle])
    granted(await acknowledgeEmergency(quality(900), { emergencyId, note: '' }))
  })

  test('is ended by hand though the clock was set right by a minute meanwhile', async () => {
    const call = await physician()
    const { emergencyId } = granted(await openEmergency(call, REASONED))
    granted(await endEmergency({ ...call, now: later(-60) }, { emergencyId }))
    expect(granted(await readEmergencies(quality(60))).waiting).toMatchObject([{ state: 'ended by the physician', minutes: 0 }])
  })
})

describe('a record that is joined to a closed one', () => {
  test('is refused like that one, opens in the same emergency view, and no entry says it was opened otherwise', async () => {
    await takeClosed(store)
    await take(store, [csv('again.csv', [patientRow({ patient_id: 'P3', status: 'died', status_on: '2026-11-01' })])])
    await join(store, 'P3', 'P2')
    const address = store.reader.patientAddress('P3')
    const entries = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 })
    const before = entries().total
    const doctor = inSession(store, 'physician')
    for (const call of [inSession(store, 'navigator'), doctor]) {
      expect(await patientMergesAt(call, address)).toMatchObject({ ok: false, closed: true })
      expect(await openPatientAt(call, address)).toMatchObject({ ok: false, closed: true })
    }
    expect([entries().total, entries().rows[0]?.event]).toMatchObject([before + 2, { action: 'access-refused', patientId: 'P2' }])
    granted(await openEmergency(doctor, { patientId: address, reason: REASON }))
    expect(granted(await openPatientAt(doctor, address))).toMatchObject({ patientId: 'P2', emergency: { reason: REASON } })
  })

  test('tells where it went while the patient is followed', async () => {
    await takeClosed(store)
    await take(store, [csv('again.csv', [patientRow({ patient_id: 'P3' })])])
    await join(store, 'P3', 'P1')
    const told = granted(await patientMergesAt(inSession(store, 'navigator'), store.reader.patientAddress('P3')))
    expect(told.joinedTo).toMatchObject({ fromId: 'P3', intoId: 'P1' })
  })
})

describe('without the key of the pseudonyms', () => {
  const QUESTION = { question: 'who-opened', patient: 'P2', person: '', only: '', from: '', to: '', before: null } as const

  test('quality is answered that it is missing, and nothing is entered as shown or asked', async () => {
    await takeClosed(store)
    granted(await openEmergency(inSession(store, 'physician'), { patientId: 'P2', reason: REASON }))
    vi.stubEnv('LOWMARK_PSEUDONYM_KEY_FILE', '')
    const before = head()
    const call = inSession(store, 'quality')
    for (const answer of [await askLog(call, QUESTION), await askLog(call, { ...QUESTION, question: 'every-entry' }), await readEmergencies(call)]) {
      expect(answer).toMatchObject({ ok: false, kind: 'unavailable', reason: expect.stringContaining('LOWMARK_PSEUDONYM_KEY_FILE') })
    }
    expect(head()).toBe(before)
  })
})

describe('the log outside the program', () => {
  const OLD = daysOf(2019, 3)
  const span = (outcome: Awaited<ReturnType<typeof exportLog>>) => {
    const { first, last } = granted(outcome)
    return [first, last]
  }

  test('is exported to the end of a day, also where a clock that ran ahead was set right before it', async () => {
    await write(store, '2026-11-23T08:00:00.000Z', '2027-03-01T08:00:00.000Z', '2026-11-24T08:00:00.000Z', '2026-11-25T08:00:00.000Z')
    expect(span(await exportLog(callOf(store), { from: null, to: { day: day('2026-11-24') } }))).toEqual([1, 3])
    expect(span(await exportLog(callOf(store), { from: { day: day('2026-11-25') }, to: { day: day('2026-11-25') } }))).toEqual([2, 5])
    expect(await exportLog(callOf(store), { from: null, to: { day: day('2026-11-22') } })).toMatchObject({ ok: false, kind: 'invalid' })
  })

  test('is no file with a gap where its oldest entries are retired while it is written', async () => {
    await write(store, ...OLD, NOW)
    const { chunks } = granted(await exportLog(callOf(store), { from: null, to: null }))
    granted(await retireLog(callOf(store), { before: day('2020-01-01'), file: `${folderOf(store.url)}/retired.ndjson` }))
    expect(() => [...chunks()]).toThrow('retired meanwhile')
  })

  test('stands on the page of the health where its head could not be sent', async () => {
    const told = async () => (await healthOf(store, later(60))).checks.find(({ what }) => what === 'log-head')
    granted(await addAccount(callOf(store), { name: 'nurse', role: 'navigator' }))
    const folder = folderOf(store.url)
    granted(await sendHead(callOf(store), { kind: 'file', path: `${folder}/heads` }))
    expect(await told()).toMatchObject({ state: 'ok' })
    expect(await sendHead(callOf(store, 'console', later(30)), { kind: 'file', path: folder })).toMatchObject({ ok: false, kind: 'unavailable' })
    expect(await told()).toMatchObject({ state: 'warn', says: expect.stringContaining('The last try failed') })
    expect(JSON.stringify(await told())).not.toContain(folder)
    granted(await sendHead(callOf(store), { kind: 'file', path: `${folder}/heads` }))
    expect(await told()).toMatchObject({ state: 'ok' })
  })

  test('tells a backup that failed as what the program could not do', async () => {
    await store.record(callOf(store), () => ({
      value: null,
      events: [{ action: 'backup-made', outcome: 'failure', reason: 'disk-full', bytes: 0, sha256: null, headSequence: null, removed: 0 }],
    }))
    const [row] = store.reader.trailRows({ after: 0, upTo: 1, limit: 1 })
    expect(row === undefined ? null : auditEventOf(row, { as: 'numbers' }, 'd').outcome).toBe('8')
  })
})
