import { createHash } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { canonicalJson } from '../../../lib/trail/index.ts'
import { endMerge, excludeResult, recheck, recordAttribution, recordReview, restoreResult, withdrawAttribution } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, take } from '../clinic.ts'
import { as, recent, resultId, seen, takeDamaged } from '../decisions/damaged.ts'
import { join } from './joined.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
})
afterEach(() => dispose())

const RULE = 'relapse-haemoglobin'
const TYPED = 'Typed by a person.'

/** P1 and P2 both in active disease, both with a fallen haemoglobin of their own. */
async function takeBoth(): Promise<void> {
  const fell = (id: string, from: string, to: string, on: string) => [
    recent('718-7', from, 'g/L', { patient_id: id, collected_at: '2024-01-18', accession: `${id} before` }),
    recent('718-7', to, 'g/L', { patient_id: id, collected_at: on, accession: `${id} after` }),
  ]
  await take(store, [
    csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })]),
    csv('course.csv', [...courseRows('P1'), ...courseRows('P2')]),
    csv('results.csv', [...fell('P1', '130', '100', '2026-11-20'), ...fell('P2', '131', '101', '2026-11-19')]),
  ])
}

const finding = async (patientId: string) => {
  const found = (await seen(store, patientId)).findings.find(({ rule }) => rule === RULE)
  if (found === undefined) throw new Error(`${RULE} was expected of ${patientId}`)
  return found
}
const about = async (patientId: string) => ({ patientId, rule: RULE, key: (await finding(patientId)).key })
const end = (mergeId = 1) => endMerge(as(store, 'navigator'), { mergeId, reason: 'Two people after all' })

test('a review of either record goes on answering what it answered, and what rests on other evidence is open', async () => {
  await takeDamaged(store)
  granted(await recordReview(as(store, 'navigator'), { ...(await about('P1')), note: TYPED, bringBackOn: null }))
  const before = await finding('P1')
  await join(store)
  expect((await finding('P1')).answered).toEqual(before.answered)
  await take(store, [csv('r.csv', [recent('718-7', '96', 'g/L', { patient_id: 'P2', collected_at: '2026-11-21' })])])
  expect([(await finding('P1')).answered, (await finding('P1')).pastAnswers.map(({ note }) => note)]).toEqual([null, [TYPED]])
  granted(await end())
  expect((await finding('P1')).answered).toEqual(before.answered)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('a review made while joined is kept with the kept patient, and stays there', async () => {
  await takeDamaged(store)
  await join(store)
  granted(await recordReview(as(store, 'navigator'), { ...(await about('P1')), patientId: 'P2', note: TYPED, bringBackOn: null }))
  expect(store.reader.record('P1')?.decisions.map(({ text }) => text)).toEqual([TYPED])
  granted(await end())
  expect((await finding('P1')).answered?.note).toBe(TYPED)
  expect(store.reader.record('P2')?.decisions).toEqual([])
})

test('a result taken out while joined stays out in the record it stands in, and is shown on no other', async () => {
  await takeBoth()
  await join(store)
  const [own, other] = [resultId(store, '100', 'P1'), resultId(store, '101', 'P2')]
  for (const id of [own, other]) granted(await excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: id, reason: TYPED }))
  const excluded = async (patientId: string) =>
    (await seen(store, patientId)).results.filter((one) => one.excluded !== null).map((one) => one.resultId)
  expect(await excluded('P1')).toEqual([own, other])
  expect(await excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: other, reason: TYPED })).toMatchObject({
    reason: `Result ${other} is excluded already.`,
  })
  granted(await end())
  expect([await excluded('P1'), await excluded('P2')]).toEqual([[own], [other]])
  granted(await restoreResult(as(store, 'physician'), { patientId: 'P2', resultId: other, reason: TYPED }))
  expect(await restoreResult(as(store, 'physician'), { patientId: 'P1', resultId: other, reason: TYPED })).toMatchObject({
    ok: false,
    kind: 'not-found',
  })
})

test('an attribution of the joined record can be withdrawn while joined, and is withdrawn there, once', async () => {
  await takeBoth()
  granted(await recordAttribution(as(store, 'physician'), { ...(await about('P2')), cause: TYPED }))
  await join(store)
  granted(await withdrawAttribution(as(store, 'physician'), { patientId: 'P1', attributionId: 1, reason: TYPED }))
  granted(await end())
  expect((await finding('P2')).attribution).toBe(null)
  expect(await withdrawAttribution(as(store, 'physician'), { patientId: 'P2', attributionId: 1, reason: TYPED })).toMatchObject({
    reason: 'Attribution 1 was withdrawn already.',
  })
})

test('a result that counts through the other record cannot be taken out by the number of its repetition', async () => {
  await takeBoth()
  await take(store, [csv('r.csv', [recent('718-7', '100', 'g/L', { patient_id: 'P2', accession: 'P1 after' })])])
  await join(store)
  const [counts, repeats] = ['P1', 'P2'].map((id) => resultId(store, '100', id))
  expect((await seen(store)).results.map((one) => one.resultId)).not.toContain(repeats)
  expect(await excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: repeats ?? 0, reason: TYPED })).toMatchObject({
    reason: expect.stringContaining('was replaced'),
  })
  granted(await excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: counts ?? 0, reason: TYPED }))
  expect((await finding('P1')).evidence.find(({ role }) => role === 'current')?.value).toBe('101')
})

test('the digests in the log name the record each decision is kept with', async () => {
  await takeBoth()
  granted(await recordReview(as(store, 'navigator'), { ...(await about('P2')), note: TYPED, bringBackOn: null }))
  granted(await recordAttribution(as(store, 'physician'), { ...(await about('P2')), cause: TYPED }))
  await join(store)
  granted(await withdrawAttribution(as(store, 'physician'), { patientId: 'P1', attributionId: 2, reason: TYPED }))
  const digests = (store.reader.record('P2')?.decisions ?? []).map((decision) =>
    createHash('sha256')
      .update(canonicalJson({ patientId: 'P2', ...decision }))
      .digest('hex'),
  )
  const last = store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]
  expect([last?.action, last?.patientId, last?.beforeHash, last?.afterHash]).toEqual(['attribution-withdrawn', 'P2', digests[1], digests[2]])
})
