import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Role } from '../../../lib/access/index.ts'
import { ANSWER_KINDS, type AnswerKind } from '../../../lib/results/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { addDays, day } from '../../../lib/time/index.ts'
import {
  type FindingView,
  openPatient,
  readTrail,
  recheck,
  recheckStored,
  recordAnswers,
  showList,
  takeAnswersBack,
  verifyLog,
} from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { refuseRows } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, TODAY, take } from '../clinic.ts'
import { as, recent, seen, seenFinding, takeDamaged, written } from './damaged.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await takeDamaged(store)
})
afterEach(() => dispose())

const RULE = 'relapse-haemoglobin'
const QUERY = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 10 } as const
const NOTE = 'Spoke with the patient.'

const shown = ({ rule, key, lastDone }: FindingView) => ({ rule, key, lastDone })
const listed = async (role: Role = 'navigator', handed = false) =>
  granted(await showList(as(store, role), { ...QUERY, handed })).rows.find(({ patientId }) => patientId === 'P1') ?? null

interface Wish {
  readonly did?: AnswerKind
  readonly note?: string
  readonly bringBackOn?: string
  readonly role?: Role
  readonly rules?: readonly string[]
  readonly of?: readonly FindingView[]
}
async function answer({ did = 'seen', note = NOTE, bringBackOn, role = 'navigator', rules = [RULE], of }: Wish = {}) {
  const findings = (of ?? (await seen(store)).findings.filter(({ rule }) => rules.includes(rule))).map(shown)
  const on = bringBackOn === undefined ? null : day(bringBackOn)
  return recordAnswers(as(store, role), { patientId: 'P1', findings, did, note, bringBackOn: on })
}
const takeBack = (decisionIds: readonly number[], role: Role = 'navigator', patientId = 'P1') =>
  takeAnswersBack(as(store, role), { patientId, decisionIds })
const reasonOf = (outcome: Awaited<ReturnType<typeof takeBack>> | Awaited<ReturnType<typeof answer>>) => (outcome.ok ? 'done' : outcome.reason)

async function sound(): Promise<void> {
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
  expect(granted(await recheckStored(callOf(store))).faults).toEqual([])
  expect(granted(await verifyLog(callOf(store))).firstBad).toBe(null)
}

describe('each kind of answer', () => {
  test.each(ANSWER_KINDS)('%s is kept, shown, in the log by its name, and comes back on its usual day', async (did) => {
    const { bringBackAtMost } = await seen(store)
    const days = { 'repeat-ordered': 28, 'visit-brought-forward': 14, contacted: 14 }[did as 'contacted']
    const usual = days === undefined || addDays(TODAY, days) > bringBackAtMost ? bringBackAtMost : addDays(TODAY, days)
    const { bringBackOn, row, decisionIds } = granted(await answer({ did }))
    expect(bringBackOn).toBe(did === 'handed-to-physician' ? null : usual)
    const finding = await seenFinding(store, RULE)
    expect(finding.answered ?? finding.handedOver).toMatchObject({ by: 'a navigator', on: TODAY, did, note: NOTE, takenBack: null })
    expect(finding.takeBack).toBe(decisionIds[0])
    expect(row).toEqual({ ...(await listed()), position: 0 })
    const [entry] = granted(await readTrail(as(store, 'administrator'), null)).rows.filter(({ action }) => action === 'review-recorded')
    expect(entry?.says).toBe(`Review 1 (${did.replaceAll('-', ' ')}) was recorded for patient P1.`)
    expect(JSON.stringify(entry)).not.toContain(NOTE)
    await sound()
  })

  test('a usual day is never after the next due test', async () => {
    // Urgent tests are due in days: 28 days would be too late.
    const { bringBackAtMost, answerChoices } = await seen(store)
    for (const { bringBackOn } of answerChoices) expect(bringBackOn === null || bringBackOn <= bringBackAtMost).toBe(true)
    const late = await answer({ did: 'repeat-ordered', bringBackOn: addDays(bringBackAtMost, 1) })
    expect(reasonOf(late)).toContain('never later than the next due test')
  })

  test.each([
    ['seen', true],
    ['contacted', true],
    ['bring-back', true],
    ['repeat-ordered', false],
    ['visit-brought-forward', false],
    ['handed-to-physician', false],
  ] as const)('%s needs a note: %s', async (did, needed) => {
    const of = (await seen(store)).findings.filter(({ rule }) => rule === RULE)
    const before = written(store)
    const outcome = await answer({ did, note: ' ', of })
    expect(outcome.ok).toBe(!needed)
    if (!needed) return expect(store.reader.decisionsOf('P1')[0]?.text).toBe('')
    expect(reasonOf(outcome)).toBe('The note is missing: it takes at least 3 characters, and is kept.')
    expect(written(store)).toEqual(before)
  })

  test('a note that may be left out is still held to its length', async () => {
    expect(reasonOf(await answer({ did: 'repeat-ordered', note: 'x' }))).toContain('at least 3 characters')
  })
})

describe('several findings', () => {
  test('are answered together, each with its own evidence, and taken back together', async () => {
    const { findings } = await seen(store)
    expect(findings.length).toBeGreaterThan(1)
    const { decisionIds, row } = granted(await answer({ of: findings }))
    expect(decisionIds).toEqual(findings.map((_, at) => at + 1))
    expect(row).toMatchObject({ window: 'on-schedule', answered: findings.length, rule: null })
    expect(store.reader.decisionsOf('P1').map((decision) => decision.kind === 'review' && decision.key)).toEqual(findings.map(({ key }) => key))
    const back = granted(await takeBack(decisionIds))
    expect(back.row).toMatchObject({ window: findings[0]?.window, answered: 0 })
    expect((await seen(store)).findings.every(({ answered }) => answered === null)).toBe(true)
    await sound()
  })

  test('are answered all or none: one with other evidence, one twice, none at all', async () => {
    const { findings } = await seen(store)
    const [first, ...others] = findings.map(shown)
    if (first === undefined) throw new Error('nothing is found')
    const before = written(store)
    const wish = { patientId: 'P1', did: 'seen', note: NOTE, bringBackOn: null } as const
    const ask = (some: readonly ReturnType<typeof shown>[]) => recordAnswers(as(store, 'navigator'), { ...wish, findings: some })
    expect(reasonOf(await ask([...others, { ...first, key: '[]' }]))).toBe('New evidence arrived meanwhile: look again.')
    expect(reasonOf(await ask([first, first]))).toBe('A finding was named twice.')
    expect(reasonOf(await ask([]))).toBe('Choose at least one finding.')
    expect(written(store)).toEqual(before)
  })

  test('are not answered by half when the log cannot take the last entry', async () => {
    const { findings } = await seen(store)
    const last = findings.length
    const outside = fromOutside(url)
    refuseRows(outside, { table: 'trail', says: 'the log is full', when: `NEW.object = 'decision ${last}'` })
    const before = written(store)
    await expect(answer({ of: findings })).rejects.toThrow('the log is full')
    expect(written(store)).toEqual(before)
    outside.close()
  })
})

describe('two people at once', () => {
  test('the second is told who, when and what; nothing is kept; sent again it is an answer anew', async () => {
    const [mine] = (await seen(store)).findings.filter(({ rule }) => rule === RULE)
    if (mine === undefined) throw new Error('not found')
    granted(await answer({ did: 'repeat-ordered', note: 'Asked the ward.', role: 'physician' }))
    const before = written(store)
    const told = await answer({ of: [mine] })
    expect(reasonOf(told)).toMatch(
      /^Meanwhile somebody was here\. .*haemoglobin: a physician answered it on 2026-11-25 at \d\d:\d\d UTC \(repeat ordered\), until 2026-\d\d-\d\d: "Asked the ward\."\. Nothing of yours was kept yet/,
    )
    expect(written(store)).toEqual(before)
    granted(await answer({ did: 'contacted' }))
    expect((await seenFinding(store, RULE)).answered).toMatchObject({ by: 'a navigator', did: 'contacted' })
  })

  test('the second is told of a handover and of an answer taken back, too', async () => {
    const [mine] = (await seen(store)).findings.filter(({ rule }) => rule === RULE)
    if (mine === undefined) throw new Error('not found')
    const { decisionIds } = granted(await answer({ did: 'handed-to-physician', note: '' }))
    expect(reasonOf(await answer({ of: [mine] }))).toContain('a navigator handed it to a physician on 2026-11-25')
    granted(await takeBack(decisionIds, 'physician'))
    expect(reasonOf(await answer({ of: [mine] }))).toContain('a physician took the answer back on 2026-11-25')
    granted(await answer())
  })

  test('both at the same moment: one is kept, the other is told', async () => {
    const of = (await seen(store)).findings.filter(({ rule }) => rule === RULE)
    const outcomes = await Promise.all([answer({ of }), answer({ of, role: 'physician' })])
    expect(outcomes.map(({ ok }) => ok).toSorted()).toEqual([false, true])
    expect(store.reader.decisionsOf('P1')).toHaveLength(1)
  })
})

describe('an answer taken back', () => {
  test('stays on record with who and when, by whoever may answer; the finding stands as before', async () => {
    const before = await seenFinding(store, RULE)
    const { decisionIds } = granted(await answer())
    granted(await takeBack(decisionIds, 'physician'))
    const after = await seenFinding(store, RULE)
    expect([after.answered, after.window, after.takeBack]).toEqual([null, before.window, null])
    expect(after.pastAnswers).toEqual([{ by: 'a navigator', on: TODAY, did: 'seen', note: NOTE, takenBack: { by: 'a physician', on: TODAY } }])
    expect(store.reader.decisionsOf('P1')[1]).toMatchObject({ kind: 'answer-withdrawn', answerId: 1, text: '' })
    const rows = store.reader.trailPage({ actor: null, limit: 10, offset: 0 }).rows
    const [withdrawn, recorded] = ['review-withdrawn', 'review-recorded'].map((action) => rows.find((row) => row.action === action))
    expect([withdrawn?.beforeHash, withdrawn?.actor]).toEqual([recorded?.afterHash, 'a physician'])
    await sound()
  })

  test('lets the one before it stand again', async () => {
    granted(await answer({ did: 'repeat-ordered' }))
    const { decisionIds } = granted(await answer({ did: 'contacted' }))
    granted(await takeBack(decisionIds))
    expect((await seenFinding(store, RULE)).answered?.did).toBe('repeat-ordered')
  })

  test.each([
    [
      'it was replaced',
      async (): Promise<void> => void granted(await answer({ did: 'contacted', role: 'physician' })),
      /it was replaced\. a physician answered it on 2026-11-25/,
    ],
    [
      'it was taken back already',
      async (): Promise<void> => void granted(await takeBack([1])),
      /a navigator took the answer back on 2026-11-25 at \d\d:\d\d UTC already/,
    ],
    [
      'evidence came after it',
      () => take(store, [csv('more.csv', [recent('718-7', '101', 'g/L', { collected_at: '2026-11-24' })])]),
      /evidence came after it/,
    ],
  ] as const)('is refused where %s, with the reason, and nothing is written', async (_, first, says) => {
    granted(await answer())
    await first()
    const before = written(store)
    expect(reasonOf(await takeBack([1]))).toMatch(says)
    expect(written(store)).toEqual(before)
  })

  test('is refused of another patient, of what is no answer, and together all or none', async () => {
    const { decisionIds } = granted(await answer({ of: (await seen(store)).findings }))
    const before = written(store)
    expect(await takeBack([1], 'navigator', 'P2')).toMatchObject({ ok: false, kind: 'not-found' })
    expect(await takeBack([99])).toMatchObject({ ok: false, kind: 'not-found' })
    expect(await takeBack([...decisionIds, 99])).toMatchObject({ ok: false, kind: 'not-found' })
    expect(await takeBack([1, 1])).toMatchObject({ ok: false, kind: 'invalid' })
    expect(await takeBack([])).toMatchObject({ ok: false, kind: 'invalid' })
    expect(written(store)).toEqual(before)
  })
})

describe('handed to a physician', () => {
  test('stays open on the list with who and when, and a physician finds it by the filter', async () => {
    const before = await listed()
    expect(await listed('physician', true)).toBe(null)
    granted(await answer({ did: 'handed-to-physician', note: '' }))
    const row = await listed('physician', true)
    expect(row).toMatchObject({ window: before?.window, rule: before?.rule, answered: 0, handedOver: { by: 'a navigator', on: TODAY } })
    await sound()
  })

  test('is not answered by a nurse, whose words stand as a note; it is by a physician', async () => {
    const { decisionIds } = granted(await answer({ did: 'handed-to-physician', note: 'Please look.' }))
    granted(await answer({ did: 'contacted' }))
    const noted = await seenFinding(store, RULE)
    expect([noted.answered, noted.handedOver?.note, noted.pastAnswers[0]?.did]).toEqual([null, 'Please look.', 'contacted'])
    expect(reasonOf(await takeBack(decisionIds))).toContain('it was replaced')
    const { decisionIds: answered } = granted(await answer({ did: 'seen', role: 'physician' }))
    const after = await seenFinding(store, RULE)
    expect([after.answered?.by, after.handedOver, await listed('physician', true)]).toEqual(['a physician', null, null])
    granted(await takeBack(answered, 'physician'))
    expect((await seenFinding(store, RULE)).handedOver?.by).toBe('a navigator')
    await sound()
  })

  test('stays handed over when new evidence comes, until a physician answers that', async () => {
    granted(await answer({ did: 'handed-to-physician' }))
    await take(store, [csv('more.csv', [recent('718-7', '101', 'g/L', { collected_at: '2026-11-24' })])])
    const finding = await seenFinding(store, RULE)
    expect([finding.state, finding.handedOver?.by]).toEqual(['confirmed', 'a navigator'])
    granted(await answer())
    expect((await seenFinding(store, RULE)).answered).toBe(null)
    granted(await answer({ role: 'physician' }))
    expect((await seenFinding(store, RULE)).answered?.by).toBe('a physician')
    await sound()
  })

  test('takes an answer that held back to the list', async () => {
    granted(await answer())
    expect((await seenFinding(store, RULE)).answered).not.toBe(null)
    granted(await answer({ did: 'handed-to-physician' }))
    expect((await seenFinding(store, RULE)).answered).toBe(null)
  })

  test('a danger stays where it is, handed over or answered', async () => {
    await take(store, [csv('danger.csv', [recent('718-7', '70', 'g/L', { collected_at: '2026-11-24' })])])
    const rules = ['danger-haemoglobin']
    granted(await answer({ rules, did: 'handed-to-physician' }))
    expect(await listed()).toMatchObject({ window: 'same-day', handedOver: { by: 'a navigator' }, noted: null })
    granted(await answer({ rules, did: 'seen', role: 'physician' }))
    expect(await listed()).toMatchObject({ window: 'same-day', handedOver: null, noted: { did: 'seen', by: 'a physician', on: TODAY } })
    await sound()
  })

  test('what was noted of a danger stands on the list until it is taken back or a new sample shows it; of nothing else', async () => {
    granted(await answer({ did: 'contacted' }))
    expect((await listed())?.noted).toBe(null)
    await take(store, [csv('danger.csv', [recent('718-7', '70', 'g/L', { collected_at: '2026-11-24' })])])
    const rules = ['danger-haemoglobin']
    expect((await listed())?.noted).toBe(null)
    const { decisionIds } = granted(await answer({ rules, did: 'contacted' }))
    expect((await listed())?.noted).toEqual({ did: 'contacted', by: 'a navigator', on: TODAY })
    granted(await takeBack(decisionIds))
    expect((await listed())?.noted).toBe(null)
    granted(await answer({ rules, did: 'repeat-ordered' }))
    await take(store, [csv('again.csv', [recent('718-7', '69', 'g/L', { collected_at: '2026-11-25' })])])
    expect(await listed()).toMatchObject({ window: 'same-day', noted: null })
    await sound()
  })
})

test.each(['quality', 'administrator'] as const)('%s may neither answer nor take back, and the refusal is in the log', async (role) => {
  const { findings } = await seen(store)
  granted(await answer())
  const decisions = store.reader.decisionsOf('P1')
  expect(await answer({ role, of: findings })).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(await takeBack([1], role)).toMatchObject({ ok: false, kind: 'not-allowed' })
  expect(store.reader.decisionsOf('P1')).toEqual(decisions)
  const refused = store.reader.trailPage({ actor: null, limit: 10, offset: 0 }).rows.filter(({ action }) => action === 'access-refused')
  expect(refused.map(({ actor }) => actor)).toEqual([`a ${role}`, `a ${role}`])
  expect(await openPatient(as(store, role), 'P1')).toMatchObject({ ok: false })
})
