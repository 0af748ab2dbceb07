import { expect, test } from 'vitest'
import { freshStore } from '../store/freshStore.ts'
import { CALL } from '../store/samples.ts'
import { countOf, rowsOf } from '../store/tables.ts'

test('a failing transaction beside 200 other writes and 200 reads: nothing acknowledged is lost', async () => {
  const { store, url, dispose } = await freshStore()
  const writes = Array.from({ length: 200 }, (_, n) =>
    store.record(CALL, (tx) => ({ value: tx.setSetting(`s${n}`, 'x'), events: [{ action: 'sign-out' }] })),
  )
  const failing = Array.from({ length: 20 }, (_, n) =>
    store.record(CALL, (tx) => {
      tx.setSetting(`f${n}`, 'x')
      throw new Error('half way')
    }),
  )
  const reads = Array.from({ length: 200 }, async () => {
    await new Promise(setImmediate)
    return countOf(url, 'setting')
  })
  const late = Array.from({ length: 20 }, (_, n) =>
    store.record(CALL, (tx) => ({ value: tx.setSetting(`l${n}`, 'x'), events: [{ action: 'sign-out' }] })),
  )
  const settled = await Promise.allSettled([...writes, ...failing, ...late])
  expect(settled.filter(({ status }) => status === 'rejected')).toHaveLength(20)
  const counts = await Promise.all(reads)
  expect(counts.every((count) => count <= 220)).toBe(true)
  const keys = rowsOf(url, 'setting').map(({ key }) => String(key))
  expect([keys.length, keys.filter((key) => key.startsWith('f'))]).toEqual([220, []])
  expect(store.reader.verifyTrail()).toMatchObject({ rows: 220, firstBad: null })
  await dispose()
})

test('closing lets the writes that were asked for end, and refuses later ones', async () => {
  const { store, dispose } = await freshStore()
  const asked = Array.from({ length: 20 }, (_, n) =>
    store.record(CALL, (tx) => ({ value: tx.setSetting(`s${n}`, 'x'), events: [{ action: 'sign-out' }] })),
  )
  await store.close()
  expect(await Promise.all(asked)).toHaveLength(20)
  await expect(store.record(CALL, (tx) => ({ value: tx.setSetting('late', 'x'), events: [{ action: 'sign-out' }] }))).rejects.toThrow(/closed/)
  await dispose()
})
