import { expect, test } from 'vitest'
import { freshStore } from '../store/freshStore.ts'
import { CALL } from '../store/samples.ts'

test('a failing transaction beside 200 other writes and 200 reads: nothing acknowledged is lost', async () => {
  const { store, dispose } = await freshStore()
  const writes = Array.from({ length: 200 }, (_, n) =>
    store.record(CALL, (tx) => ({ value: tx.setSetting(`s${n}`, 'x'), events: [{ action: 'sign-out' }] })),
  )
  const failing = Array.from({ length: 20 }, (_, n) =>
    store.record(CALL, (tx) => {
      tx.setSetting(`f${n}`, 'x')
      throw new Error('half way')
    }),
  )
  const reads = Array.from({ length: 200 }, () => store.prisma.setting.count())
  const late = Array.from({ length: 20 }, (_, n) =>
    store.record(CALL, (tx) => ({ value: tx.setSetting(`l${n}`, 'x'), events: [{ action: 'sign-out' }] })),
  )
  const settled = await Promise.allSettled([...writes, ...failing, ...late])
  expect(settled.filter(({ status }) => status === 'rejected')).toHaveLength(20)
  const counts = await Promise.all(reads)
  expect(counts.every((count) => count <= 220)).toBe(true)
  expect(await store.prisma.setting.count()).toBe(220)
  expect(await store.prisma.setting.count({ where: { key: { startsWith: 'f' } } })).toBe(0)
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
