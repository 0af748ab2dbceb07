import { createHash } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { canonicalJson } from '../../../lib/trail/index.ts'
import { excludeResult, readTrail, recordAttribution, recordReview, restoreResult, withdrawAttribution } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { refuseRows } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { granted } from '../accounts/persons.ts'
import { as, resultId, seenFinding, takeDamaged } from './damaged.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
  await takeDamaged(store)
})
afterEach(() => dispose())

const RULE = 'relapse-haemoglobin'
const TYPED = 'Typed by a person.'

const finding = async () => ({ patientId: 'P1', rule: RULE, key: (await seenFinding(store, RULE)).key })
const STEPS: readonly (readonly [action: string, run: () => Promise<{ ok: boolean }>])[] = [
  ['review-recorded', async () => recordReview(as(store, 'navigator'), { ...(await finding()), note: TYPED, bringBackOn: null })],
  ['review-recorded', async () => recordReview(as(store, 'physician'), { ...(await finding()), note: TYPED, bringBackOn: null })],
  ['attribution-recorded', async () => recordAttribution(as(store, 'physician'), { ...(await finding()), cause: TYPED })],
  ['attribution-withdrawn', () => withdrawAttribution(as(store, 'physician'), { patientId: 'P1', attributionId: 3, reason: TYPED })],
  ['result-excluded', () => excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: resultId(store, '100'), reason: TYPED })],
  ['result-restored', () => restoreResult(as(store, 'physician'), { patientId: 'P1', resultId: resultId(store, '100'), reason: TYPED })],
]

async function takeAll(): Promise<void> {
  for (const [, run] of STEPS) expect((await run()).ok).toBe(true)
}

const entries = () =>
  store.reader
    .trailPage({ actor: null, limit: 100, offset: 0 })
    .rows.toReversed()
    .filter(({ event }) => 'decisionId' in event)

test('each decision is one entry with its digest, and with that of the decision it takes the place of or takes back', async () => {
  await takeAll()
  const rows = entries()
  expect(rows.map(({ action }) => action)).toEqual(STEPS.map(([action]) => action))
  const { decisions } = store.reader.loadHistory('P1')?.history ?? { decisions: [] }
  const digests = decisions.map((decision) =>
    createHash('sha256')
      .update(canonicalJson({ patientId: 'P1', ...decision }))
      .digest('hex'),
  )
  expect(rows.map(({ afterHash }) => afterHash)).toEqual(digests)
  expect(rows.map(({ beforeHash }) => beforeHash)).toEqual([null, digests[0], null, digests[2], null, digests[4]])
  expect(rows.map(({ patientId }) => patientId)).toEqual(rows.map(() => 'P1'))
  const excluded = resultId(store, '100')
  expect(rows.map(({ object, objectVersion }) => [object, objectVersion])).toEqual([
    ['decision 1', null],
    ['decision 2', null],
    ['decision 3', null],
    ['decision 4', null],
    [`result ${excluded}`, 1],
    [`result ${excluded}`, 1],
  ])
  expect(store.reader.verifyTrail().firstBad).toBe(null)
})

test('no typed text, no rule and no value is in the log', async () => {
  await takeAll()
  const text = JSON.stringify(entries())
  for (const word of [TYPED, RULE, 'haemoglobin', '"100"', 'g/L']) expect(text).not.toContain(word)
})

test('quality reads that a decision was made, and about whom by pseudonym alone', async () => {
  await takeAll()
  const quality = granted(await readTrail(as(store, 'quality'), null)).rows.filter(({ action }) => action === 'result-excluded')
  expect(quality.map(({ says, patientId }) => [says, patientId])).toEqual([
    [
      expect.stringMatching(new RegExp(`^Version 1 of result ${resultId(store, '100')} was excluded for patient [2-9A-Y]{5}(-[2-9A-Y]{5}){2}\\.$`)),
      null,
    ],
  ])
  const all = granted(await readTrail(as(store, 'administrator'), null)).rows.find(({ action }) => action === 'review-recorded')
  expect(all?.says).toBe('Review 2 was recorded for patient P1.')
})

test('when the log cannot be written, nothing is decided', async () => {
  const outside = fromOutside(url)
  for (const [action, run] of STEPS) {
    const before = [store.reader.loadHistory('P1'), store.reader.standings()]
    const takeAgain = refuseRows(outside, { table: 'trail', says: 'the log is full', when: `NEW.action = '${action}'` })
    await expect(run()).rejects.toThrow('the log is full')
    takeAgain()
    expect([store.reader.loadHistory('P1'), store.reader.standings()]).toEqual(before)
    expect((await run()).ok).toBe(true)
  }
  outside.close()
  expect(entries()).toHaveLength(STEPS.length)
})
