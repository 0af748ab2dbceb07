import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { excludeResult, listDocument, patientDocument, recheck, recordReview, restoreResult } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { csv, TODAY, take } from '../clinic.ts'
import { as, recent, resultId, seen, seenFinding, takeDamaged, written } from './damaged.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeDamaged(store)
})
afterEach(() => dispose())

const REASON = 'The tube was mixed up.'
const exclude = (id: number, patientId = 'P1', call = as(store, 'physician')) => excludeResult(call, { patientId, resultId: id, reason: REASON })
const restore = (id: number, patientId = 'P1') =>
  restoreResult(as(store, 'physician'), { patientId, resultId: id, reason: 'It was right after all.' })
const RULE = 'relapse-haemoglobin'

async function rules(patientId = 'P1'): Promise<string[]> {
  return (await seen(store, patientId)).findings.map(({ rule }) => rule)
}

test('an excluded result counts for nothing and stays visible with who, when and why; put back it counts again', async () => {
  const id = resultId(store, '100')
  const before = { rules: await rules(), revision: store.reader.patient('P1')?.revision ?? 0 }
  expect(before.rules).toContain(RULE)
  expect(granted(await exclude(id))).toBe(null)
  expect(await rules()).not.toContain(RULE)
  const shown = (await seen(store)).results.find((result) => result.resultId === id)
  expect(shown).toEqual({
    resultId: id,
    analyte: 'haemoglobin',
    collectedOn: '2026-11-20',
    received: '100 g/L',
    laboratory: null,
    method: null,
    fileName: 'results.csv',
    line: 4,
    version: 1,
    status: 'final',
    excluded: { by: 'a physician', on: TODAY, reason: REASON },
  })
  expect(store.reader.standing('P1')).toMatchObject({ historyRevision: before.revision + 1, evaluatedOn: TODAY })
  expect(store.reader.standing('P1')?.rules).not.toContain(RULE)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])

  expect(granted(await restore(id))).toBe(null)
  expect(await rules()).toEqual(before.rules)
  expect((await seen(store)).results.every(({ excluded }) => excluded === null)).toBe(true)
  expect(granted(await recheck(callOf(store))).differences).toEqual([])
})

test('results are listed latest first, and the command line says nothing of the excluded one', async () => {
  granted(await exclude(resultId(store, '100')))
  const days = (await seen(store)).results.map(({ collectedOn }) => collectedOn)
  expect(days).toEqual(['2026-11-20', '2024-01-18', '2024-01-18'])
  const document = granted(await patientDocument(as(store, 'physician'), 'P1', null))
  expect(document.markers.haemoglobin).toMatchObject({ samples: 1, current: { value: '130' } })
})

test('a correction that comes later counts again; the excluded version stays visible', async () => {
  const id = resultId(store, '100')
  granted(await exclude(id))
  await take(store, [csv('corrected.csv', [recent('718-7', '99', 'g/L', { accession: '718-7 100', status: 'corrected' })])])
  expect(await rules()).toContain(RULE)
  const { results } = await seen(store)
  expect(
    results.filter(({ analyte }) => analyte === 'haemoglobin').map(({ version, received, excluded }) => [version, received, excluded?.reason]),
  ).toEqual([
    [2, '99 g/L', undefined],
    [1, '100 g/L', REASON],
    [1, '130 g/L', undefined],
  ])
  expect(await exclude(id)).toMatchObject({ ok: false, reason: `Result ${id} is excluded already.` })
  granted(await restore(id))
  expect(await exclude(id)).toMatchObject({ ok: false, kind: 'invalid', reason: `Result ${id} was replaced by a newer version: look again.` })
})

test('what cannot be excluded or restored is refused with its reason, and nothing is written', async () => {
  const [own, other] = [resultId(store, '100'), resultId(store, '90', 'P2')]
  await take(store, [csv('withdrawn.csv', [recent('718-7', '', '', { accession: '718-7 100', status: 'entered-in-error' })])])
  const withdrawn = store.reader.versionsOfPatient('P1').find(({ result }) => result.status === 'entered-in-error')?.result.id ?? 0
  const before = written(store)
  const refusals = [
    await exclude(other),
    await exclude(999),
    await exclude(own, 'P9'),
    await exclude(withdrawn),
    await restore(own),
    await restore(other),
    await excludeResult(as(store, 'physician'), { patientId: 'P1', resultId: own, reason: ' ' }),
  ]
  expect(refusals.map((outcome) => (outcome.ok ? 'kept' : [outcome.kind, outcome.reason]))).toEqual([
    ['not-found', `Patient P1 has no result with the number ${other}.`],
    ['not-found', 'Patient P1 has no result with the number 999.'],
    ['not-found', 'No patient has the number "P9".'],
    ['invalid', `The laboratory withdrew result ${withdrawn}: it counts for nothing already.`],
    ['invalid', `Result ${own} is not excluded.`],
    ['not-found', `Patient P1 has no result with the number ${other}.`],
    ['invalid', 'The reason is missing: it takes at least 3 characters, and is kept.'],
  ])
  expect(written(store)).toEqual(before)
})

test('two people who decide at once: one is kept, the other is told', async () => {
  const id = resultId(store, '100')
  const outcomes = await Promise.all([exclude(id), exclude(id)])
  expect(outcomes.filter(({ ok }) => ok)).toHaveLength(1)
  expect(store.reader.loadHistory('P1')?.history.decisions).toHaveLength(1)
})

test('of a day before the decision nothing of it is told', async () => {
  const { key } = await seenFinding(store, RULE)
  granted(await recordReview(as(store, 'navigator'), { patientId: 'P1', rule: RULE, key, note: 'Seen.', bringBackOn: null }))
  granted(await exclude(resultId(store, '100')))
  const p1 = async (asOf: string | null) => {
    const { patients } = granted(await listDocument(as(store, 'physician'), asOf as never))
    return patients.find(({ patientId }) => patientId === 'P1')?.findings.map(({ rule }) => rule)
  }
  expect(await p1('2026-11-24')).toContain(RULE)
  expect(await p1(null)).not.toContain(RULE)
})
