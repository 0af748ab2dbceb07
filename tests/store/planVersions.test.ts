import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { DEFAULT_PLAN, type PlanValues, planOn, valuesOf } from '../../lib/plan/index.ts'
import type { PlanDecision, Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { freshStore } from './freshStore.ts'
import { withoutGuards } from './guards.ts'
import { fromOutside, type Outside } from './outside.ts'
import { refusedBy } from './refusals.ts'
import { CALL } from './samples.ts'

const FROM = day('2026-12-01')
const VALUES: PlanValues = { ...valuesOf(DEFAULT_PLAN), 'grace.percent': 20 }
const PROPOSAL = { basedOn: 1, values: VALUES, note: 'shorter', proposedBy: 'Anna', proposedAt: CALL.now, from: FROM }

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const propose = (proposal = PROPOSAL) =>
  fresh.store.record(CALL, (tx) => ({ value: tx.insertPlanVersion(proposal), events: [{ action: 'plan-withdrawn', version: 2, sha256: '' }] }))

const decide = (version: number, decision: PlanDecision['decision'], by = 'Berta', at = CALL.now) =>
  fresh.store.record(CALL, (tx) => ({
    value: tx.decidePlanVersion({ version, by, at, decision }),
    events: [{ action: 'plan-refused', version, sha256: '' }],
  }))

describe('versions of the plan', () => {
  test('are numbered from 2 on, and read back as they were proposed', async () => {
    expect([await propose(), await propose({ ...PROPOSAL, note: 'again' })]).toEqual([2, 3])
    expect(fresh.store.reader.planVersion(2)).toEqual({
      ...PROPOSAL,
      version: 2,
      state: 'proposed',
      payload: expect.stringMatching(/^\{"active|^\{"bone-agent\.0\.every":\{"days":28\},"grace\.atMostDays":30,"grace\.percent":20,/),
      decidedBy: null,
      decidedAt: null,
      decisionReason: null,
    })
    expect(fresh.store.reader.planVersions().map(({ note }) => note)).toEqual(['shorter', 'again'])
    expect(fresh.store.reader.planVersion(4)).toBe(null)
  })

  test('are in force only once published, from the day the publication says, in the order of their numbers whatever the clock said', async () => {
    for (let count = 0; count < 4; count += 1) await propose()
    expect(fresh.store.reader.publishedPlans()).toEqual([])
    await decide(2, { state: 'published', from: FROM }, 'Berta', '2026-11-25T10:00:02.000Z')
    // The clock was set back; nothing is published that was drawn from an older version, so the numbers are the order.
    await decide(3, { state: 'published', from: FROM }, 'Berta', '2026-11-25T10:00:01.000Z')
    await decide(4, { state: 'refused', reason: 'too early' })
    await decide(5, { state: 'withdrawn' }, 'Anna')
    const plans = fresh.store.reader.publishedPlans()
    expect(plans.map(({ version, from, grace }) => [version, from, grace.percent])).toEqual([
      ['2', FROM, 20],
      ['3', FROM, 20],
    ])
    expect([planOn(plans, day('2026-11-30')).version, planOn(plans, FROM).version]).toEqual(['1', '3'])
    // Read once, then remembered: a published text cannot change.
    expect(fresh.store.reader.publishedPlans()[0]).toBe(plans[0])
  })

  test('are decided on once', async () => {
    await propose()
    expect(await decide(2, { state: 'refused', reason: 'no' })).toBe(true)
    expect(await decide(2, { state: 'published', from: FROM })).toBe(false)
    expect(await decide(9, { state: 'withdrawn' })).toBe(false)
    expect(fresh.store.reader.planVersion(2)).toMatchObject({ state: 'refused', decisionReason: 'no', decidedBy: 'Berta' })
  })

  test('that another program made unreadable are never followed by guess', async () => {
    await propose()
    const db = fromOutside(fresh.url)
    withoutGuards(db, () => db.exec(`UPDATE plan_version SET payload = '{"grace.percent":200}'`))
    db.close()
    expect(() => fresh.store.reader.planVersions()).toThrow(/cannot be read: grace\.percent must be from 0 to 100 %/)
  })
})

const INSERT = (version: number, state: string) =>
  `INSERT INTO plan_version (version, based_on, state, payload, note, proposed_by, proposed_at, from_day) VALUES (${version}, 1, '${state}', '{}', 'x', 'Anna', '${CALL.now}', '2026-12-01')`

describe('the database itself refuses', () => {
  let db: Outside
  beforeEach(async () => {
    await propose()
    await propose()
    await decide(2, { state: 'published', from: FROM })
    db = fromOutside(fresh.url)
  })
  afterEach(() => db.close())

  test.each([
    ['another text of a published version', "UPDATE plan_version SET payload = '{}' WHERE version = 2", 'never changed'],
    ['another first day of a published version', "UPDATE plan_version SET from_day = '2026-11-01' WHERE version = 2", 'never changed'],
    ['taking a publication back', "UPDATE plan_version SET state = 'withdrawn' WHERE version = 2", 'never changed'],
    ['another text of a proposal', "UPDATE plan_version SET payload = '{}' WHERE version = 3", 'what was proposed is never changed'],
    ['another proposer', "UPDATE plan_version SET proposed_by = 'Cilla' WHERE version = 3", 'what was proposed is never changed'],
    ['removing a version', 'DELETE FROM plan_version WHERE version = 3', 'never removed'],
    ['replacing a version', INSERT(2, 'proposed').replace('INSERT', 'INSERT OR REPLACE'), 'follows the last one'],
    ['a version after a gap', INSERT(9, 'proposed'), 'follows the last one'],
    ['a version that nobody proposed', INSERT(4, 'published'), 'is proposed first'],
    [
      'publishing a proposal of one’s own, whichever way the name is written',
      `UPDATE plan_version SET state = 'published', decided_by = 'ANNA', decided_at = '${CALL.now}' WHERE version = 3`,
      refusedBy(['check']),
    ],
    ['a decision of nobody', "UPDATE plan_version SET state = 'withdrawn' WHERE version = 3", refusedBy(['check'])],
    [
      'a refusal without a reason',
      `UPDATE plan_version SET state = 'refused', decided_by = 'B', decided_at = '${CALL.now}' WHERE version = 3`,
      refusedBy(['check']),
    ],
    ['a day that is none', "UPDATE plan_version SET from_day = 'soon' WHERE version = 3", refusedBy(['check'])],
  ])('%s', (_, sql, because) => {
    expect(() => db.exec(sql)).toThrow(because)
  })
})
