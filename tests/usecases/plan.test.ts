import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { Store } from '../../lib/store/index.ts'
import {
  type Call,
  type Outcome,
  proposePlan,
  publishPlan,
  readPlan,
  readTrail,
  refusePlan,
  tryPlan,
  withdrawProposal,
} from '../../lib/usecases/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
let physician: Call
let administrator: Call
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  physician = callOf(store, 'physician')
  administrator = callOf(store, 'administrator')
})
afterEach(() => dispose())

const WISH = { changes: { 'treatment.0.every': { days: 21 } }, from: '2026-12-01', basedOn: 1, note: 'three-week cycles' }

interface Wish {
  readonly changes: Readonly<Record<string, unknown>>
  readonly from: string
  readonly basedOn: number
  readonly note: string
}

const propose = async (changes: Partial<Wish> = {}, call = physician) => granted(await proposePlan(call, { ...WISH, ...changes })).version
const reasonOf = (outcome: Outcome<unknown>) => (outcome.ok ? 'granted' : `${outcome.kind}: ${outcome.reason}`)
const lastLogged = () => store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]

describe('proposing', () => {
  test('keeps the numbers, changes nothing that is in force, and is logged with the hashes of before and after', async () => {
    expect(await propose()).toBe(2)
    expect(store.reader.planVersion(2)).toMatchObject({ state: 'proposed', basedOn: 1, from: '2026-12-01', proposedBy: 'a physician' })
    expect(granted(await readPlan(physician)).inForce.version).toBe('1')
    const row = lastLogged()
    expect(row).toMatchObject({ action: 'plan-proposed', object: 'follow-up plan', objectVersion: 2, actor: 'a physician' })
    expect([row?.beforeHash, row?.afterHash].every((hash) => /^[0-9a-f]{64}$/.test(hash ?? ''))).toBe(true)
    expect(row?.beforeHash).not.toBe(row?.afterHash)
    expect(JSON.stringify(row?.event)).not.toContain('three-week')
  })

  test('says everything that is wrong at once, field by field, and keeps nothing', async () => {
    const changes = { 'treatment.0.every': { days: 3 }, 'grace.percent': 101, 'threshold.secondSampleDays': '28' }
    const outcome = await proposePlan(physician, { ...WISH, changes, from: '2026-11-24', note: ' ' })
    expect(outcome.ok ? [] : outcome.fields?.map(({ field }) => field)).toEqual([
      'treatment.0.every',
      'grace.percent',
      'threshold.secondSampleDays',
      'from',
      'note',
    ])
    expect(reasonOf(outcome)).toMatch(/"Grace: A test may be late by this share of its interval" must be from 0 to 100 %: .+The note is missing/)
    expect(store.reader.planVersions()).toEqual([])
  })

  test.each([
    ['2026-11-24', 'is in the past'],
    ['2026-11-25', null],
    ['2027-11-26', null],
    ['2027-11-27', 'is more than 366 days ahead'],
    ['1.12.2026', 'is not a day'],
    ['2027-02-29', 'is not a day'],
  ])('to begin on %s: %s', async (from, problem) => {
    const outcome = await proposePlan(physician, { ...WISH, from })
    if (problem === null) expect(outcome.ok).toBe(true)
    else expect(reasonOf(outcome)).toContain(`The first day ${problem}`)
  })

  test('the same numbers are no change', async () => {
    expect(reasonOf(await proposePlan(physician, { ...WISH, changes: { 'treatment.0.every': { days: 28 } } }))).toContain('Nothing is changed')
  })

  test('is withdrawn by its own physician alone', async () => {
    const version = await propose()
    const other = { ...physician, actor: { ...physician.actor, name: 'another physician' } }
    expect(reasonOf(await withdrawProposal(other, { version }))).toContain('who alone can withdraw it')
    granted(await withdrawProposal(physician, { version }))
    expect(lastLogged()).toMatchObject({ action: 'plan-withdrawn', objectVersion: 2 })
    expect(reasonOf(await publishPlan(administrator, { version, from: '2026-12-01' }))).toBe(
      'invalid: Version 2 was withdrawn by a physician already.',
    )
  })
})

describe('publishing', () => {
  test('puts the numbers in force from the day the administrator names', async () => {
    const version = await propose()
    expect(granted(await publishPlan(administrator, { version, from: '2026-12-24' }))).toEqual({ version: 2, from: '2026-12-24' })
    expect(lastLogged()).toMatchObject({ action: 'plan-published', objectVersion: 2, actor: 'a administrator' })
    const at = async (now: string) => granted(await readPlan(callOf(store, 'navigator', now))).inForce
    expect((await at('2026-12-23T10:00:00.000Z')).version).toBe('1')
    const inForce = await at('2026-12-24T10:00:00.000Z')
    expect(inForce.version).toBe('2')
    expect(inForce.rows.filter(({ usual }) => usual !== null)).toEqual([
      {
        title: 'active, on treatment',
        tests: ['serum M-protein', 'free light chains', 'blood count', 'chemistry (creatinine and calcium)'],
        often: 'every 21 days',
        source: '(this clinic)',
        usual: 'every 28 days',
      },
    ])
  })

  test('takes two people: nobody publishes a proposal of their own, whatever their role has become', async () => {
    const version = await propose()
    const promoted = { ...administrator, actor: { ...administrator.actor, name: 'A Physician' } }
    expect(reasonOf(await publishPlan(promoted, { version, from: '2026-12-01' }))).toContain('somebody else has to publish it')
    expect(store.reader.planVersion(version)?.state).toBe('proposed')
  })

  test('never takes back what another version changed in between', async () => {
    const [first, second] = [await propose(), await propose({ changes: { 'treatment.0.every': { days: 35 } } })]
    granted(await publishPlan(administrator, { version: first, from: '2026-12-01' }))
    expect(reasonOf(await publishPlan(administrator, { version: second, from: '2026-12-01' }))).toContain('would take back what that one changed')
    expect(granted(await readPlan(administrator)).proposals?.[0]).toMatchObject({
      version: 3,
      notToPublish: expect.stringContaining('drawn from version 1'),
    })
    granted(await refusePlan(administrator, { version: second, reason: 'drawn from an older version' }))
    expect(reasonOf(await proposePlan(physician, WISH))).toContain('Version 2 was published meanwhile')
  })

  test('a version begins no earlier than the last one, and on the same day takes its place', async () => {
    granted(await publishPlan(administrator, { version: await propose(), from: '2026-12-10' }))
    const next = await propose({ basedOn: 2, changes: { 'grace.percent': 10 }, from: '2026-12-10' })
    expect(reasonOf(await publishPlan(administrator, { version: next, from: '2026-12-09' }))).toContain('the earliest day is 2026-12-10')
    granted(await publishPlan(callOf(store, 'administrator', '2026-11-25T10:00:01.000Z'), { version: next, from: '2026-12-10' }))
    const page = granted(await readPlan(callOf(store, 'physician', '2026-12-10T10:00:00.000Z')))
    expect(page.versions.map(({ version, time, until }) => [version, time, until])).toEqual([
      ['3', 'in force', null],
      ['2', 'never in force', '2026-12-09'],
      ['1', 'past', '2026-12-09'],
    ])
    // What the later version does not mention stays as in the one before it, not as Lowmark comes.
    expect(page.inForce.rows.find(({ usual }) => usual !== null)?.often).toBe('every 21 days')
    expect(page.inForce.grace[0]).toMatchObject({ value: '10 %', usual: '25 %', source: '(this clinic)' })
  })

  test('an unknown version and a day in the past are refused with the reason', async () => {
    expect(reasonOf(await publishPlan(administrator, { version: 7, from: '2026-12-01' }))).toBe('not-found: No version of the plan has the number 7.')
    expect(reasonOf(await publishPlan(administrator, { version: await propose(), from: '2026-11-24' }))).toContain('The first day is in the past')
  })

  test('of two decisions at once one counts', async () => {
    const version = await propose()
    const both = await Promise.all([
      publishPlan(administrator, { version, from: '2026-12-01' }),
      refusePlan(administrator, { version, reason: 'not now' }),
    ])
    expect(both.map(({ ok }) => ok).toSorted()).toEqual([false, true])
  })
})

describe('refusing', () => {
  test('needs a reason, which stays with the version and out of the log', async () => {
    const version = await propose()
    expect(reasonOf(await refusePlan(administrator, { version, reason: ' ' }))).toContain('The reason is missing')
    granted(await refusePlan(administrator, { version, reason: 'The laboratory cannot do it' }))
    expect(granted(await readPlan(physician)).proposals).toMatchObject([
      { version: 2, state: 'refused', decisionReason: 'The laboratory cannot do it' },
    ])
    const log = JSON.stringify(granted(await readTrail(administrator, null)))
    expect(log).toContain('The proposed version 2 of the follow-up plan was refused.')
    expect(log).not.toContain('laboratory')
  })
})

describe('reading', () => {
  test('everybody reads the plan; proposals are for those who propose or publish, the form for those who propose', async () => {
    await propose()
    const seen = async (role: 'navigator' | 'physician' | 'quality' | 'administrator') => {
      const { proposals, form, publishing, inForce } = granted(await readPlan(callOf(store, role)))
      return [proposals?.length ?? null, form !== null, publishing !== null, inForce.rows.length]
    }
    expect(await seen('navigator')).toEqual([null, false, false, DEFAULT_PLAN.rows.length])
    expect(await seen('quality')).toEqual([null, false, false, DEFAULT_PLAN.rows.length])
    expect(await seen('physician')).toEqual([1, true, false, DEFAULT_PLAN.rows.length])
    expect(await seen('administrator')).toEqual([1, false, true, DEFAULT_PLAN.rows.length])
  })
})

describe('trying', () => {
  beforeEach(async () => {
    await take(store, [csv('p.csv', [patientRow()]), csv('c.csv', courseRows()), csv('r.csv', [resultRow()])])
  })
  const changes = { 'treatment.0.every': { months: 60 }, 'treatment-seldom.0.every': { months: 60 } }

  test('tells a physician whom it concerns, and the log that they were told', async () => {
    const tried = granted(await tryPlan(physician, { kind: 'changes', wish: { changes, from: '2026-11-25', basedOn: 1 } }))
    expect(tried).toMatchObject({ on: '2026-11-25', evaluated: 1, changed: 1, dueChanged: 0 })
    expect(tried.patients).toMatchObject([{ patientId: 'P1', before: 'within-7-days' }])
    expect(lastLogged()).toMatchObject({
      action: 'plan-tried',
      objectVersion: null,
      event: { version: null, evaluated: 1, changed: 1, patients: ['P1'] },
    })
  })

  test('tells an administrator counts, and not whom: neither in the answer nor in the log', async () => {
    const version = await propose({ changes: changes })
    const tried = granted(await tryPlan(administrator, { kind: 'proposal', version, from: '2026-11-25' }))
    expect(tried).toMatchObject({ evaluated: 1, changed: 1, patients: null })
    expect(JSON.stringify(tried)).not.toContain('P1')
    expect(lastLogged()).toMatchObject({ action: 'plan-tried', objectVersion: 2, event: { patients: [] } })
  })

  test('numbers are tried by those who propose, proposals by those who publish', async () => {
    const wish = { changes, from: '2026-11-25', basedOn: 1 }
    expect(reasonOf(await tryPlan(administrator, { kind: 'changes', wish }))).toContain('does not include this (plan.propose)')
    expect(reasonOf(await tryPlan(physician, { kind: 'proposal', version: 2, from: '2026-11-25' }))).toContain('does not include this (plan.publish)')
    expect(reasonOf(await tryPlan(callOf(store, 'navigator'), { kind: 'changes', wish }))).toContain('does not include this')
  })

  test('says what is wrong with the numbers as proposing does, and evaluates nobody', async () => {
    const wish = { changes: { 'grace.percent': -1 }, from: 'soon', basedOn: 1 }
    const outcome = await tryPlan(physician, { kind: 'changes', wish })
    expect(outcome.ok ? [] : outcome.fields?.map(({ field }) => field)).toEqual(['grace.percent', 'from'])
    expect(lastLogged()?.action).not.toBe('plan-tried')
  })
})
