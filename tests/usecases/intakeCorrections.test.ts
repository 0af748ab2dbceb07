import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { counts, csv, only, patientRow, resultRow, take, valuesOf } from './clinic.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await take(store, [csv('patients.csv', [patientRow()])])
})
afterEach(() => dispose())

const ORIGINAL = csv('original.csv', [resultRow()])
const CORRECTION = csv('correction.csv', [resultRow({ status: 'corrected', value: '15.0', reported_at: '2026-06-03' })])
const SECOND = csv('second.csv', [resultRow({ status: 'corrected', value: '16.0', reported_at: '2026-06-05' })])
const WITHDRAWAL = csv('withdrawal.csv', [resultRow({ status: 'entered-in-error', reported_at: '2026-06-07' })])

function waiting(): number {
  return store.reader.heldQueue().length
}

test('a correction after its original is a new version; the old one is kept', async () => {
  const reports = [...(await take(store, [ORIGINAL])), ...(await take(store, [CORRECTION]))]
  expect(reports.map(counts)).toEqual([only({ rows: 1, filed: 1 }), only({ rows: 1, corrected: 1 })])
  expect(valuesOf(store)).toEqual(['15.0'])
  expect(store.reader.versionsOfPatient('P1').map(({ current, result }) => [result.version, result.provenance.valueText, current])).toEqual([
    [1, '14.2', false],
    [2, '15.0', true],
  ])
})

test('a correction before its original waits, and is filed by the file that brings the original', async () => {
  const [early] = await take(store, [CORRECTION])
  expect(early?.problems).toMatchObject([{ reason: 'correction-before-original' }])
  expect([valuesOf(store), waiting()]).toEqual([[], 1])
  expect(store.reader.standing('P1')?.answer).toContain('held-results')
  const [late] = await take(store, [ORIGINAL])
  expect(late === undefined ? null : counts(late)).toEqual(only({ rows: 1, filed: 1, released: 1 }))
  expect([valuesOf(store), waiting()]).toEqual([['15.0'], 0])
  expect(store.reader.standing('P1')?.answer).not.toContain('held-results')
})

test('a correction above its original in one file is no different from one below it', async () => {
  const [report] = await take(store, [csv('both.csv', [resultRow({ status: 'corrected', value: '15.0' }), resultRow()])])
  expect(report === undefined ? null : counts(report)).toEqual(only({ rows: 2, filed: 1, corrected: 1 }))
  expect(valuesOf(store)).toEqual(['15.0'])
})

describe('original, two corrections and a withdrawal over four files, in every order', () => {
  const all = [ORIGINAL, CORRECTION, SECOND, WITHDRAWAL]
  const orders = (files: typeof all): (typeof all)[] =>
    files.length === 0 ? [[]] : files.flatMap((first) => orders(files.filter((file) => file !== first)).map((rest) => [first, ...rest]))

  test.each(orders(all.slice(0, 3)).map((files) => [files.map((file) => file.name).join(', '), files] as const))('%s', async (_, files) => {
    for (const file of files) await take(store, [file])
    expect([valuesOf(store), waiting()]).toEqual([['16.0'], 0])
  })

  test.each(orders(all).map((files) => [files.map((file) => file.name).join(', '), files] as const))('%s: nothing counts', async (_, files) => {
    await take(store, files)
    expect([valuesOf(store), waiting()]).toEqual([[], 0])
    expect(store.reader.versionsOfPatient('P1')).toHaveLength(4)
  })
})

test('another value without a correction status is held; the first stays', async () => {
  await take(store, [ORIGINAL])
  const [report] = await take(store, [csv('other.csv', [resultRow({ value: '17.0' })])])
  expect(report?.problems).toMatchObject([{ outcome: 'held', reason: 'conflicting-value' }])
  expect(valuesOf(store)).toEqual(['14.2'])
})

test('a final replaces a preliminary, whichever comes first', async () => {
  const preliminary = csv('early.csv', [resultRow({ status: 'preliminary', value: '13' })])
  await take(store, [preliminary])
  await take(store, [ORIGINAL])
  const [again] = await take(store, [preliminary])
  expect(again === undefined ? null : counts(again)).toEqual(only({ rows: 1, known: 1 }))
  expect([valuesOf(store), waiting()]).toEqual([['14.2'], 0])
})
