import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { recheck } from '../../../lib/usecases/index.ts'
import { freshStore } from '../../store/freshStore.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { listText, take } from '../clinic.ts'
import { seen, takeLevel } from './relapse.ts'
import { CANCELLED, CORRECTED, FINAL, FORMATS, type Format, orders, PRELIMINARY, type Report, WITHDRAWN } from './reports.ts'

let store: Store
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, dispose } = await freshStore())
  await takeLevel(store)
})
afterEach(() => dispose())

/** The version of the sample that counts, by status and value; what the list says; and what waits. */
async function state(): Promise<{ counts: string; list: string; waiting: number }> {
  const counting = store.reader.versionsOfPatient('P1').find(({ current, result }) => current && result.accession === 'R')?.result
  // The list is without its results' own numbers; where a row stood in which file is not asked for.
  const list = (await listText(store)).replace(/"line":\d+/g, '')
  return { counts: `${counting?.status} ${counting?.provenance.valueText}`.trim(), list, waiting: store.reader.heldQueue().length }
}

const CASES: readonly (readonly [string, readonly Report[], string])[] = [
  ['preliminary and final', [PRELIMINARY, FINAL], 'final 36.0'],
  ['preliminary, final and corrected', [PRELIMINARY, FINAL, CORRECTED], 'corrected 10.5'],
  ['preliminary, final, corrected and withdrawn', [PRELIMINARY, FINAL, CORRECTED, WITHDRAWN], 'entered-in-error'],
  ['preliminary, final, corrected and cancelled', [PRELIMINARY, FINAL, CORRECTED, CANCELLED], 'cancelled'],
]

describe.each(Object.keys(FORMATS) as Format[])('%s', (format) => {
  describe.each(CASES)('%s, whatever the order', (_, reports, counts) => {
    let expected: { counts: string; list: string; waiting: number } | null = null

    test.each(orders(reports).map((order) => [order.map(({ status }) => status).join(', '), order] as const))('%s', async (_order, order) => {
      for (const report of order) await take(store, [FORMATS[format]([report])])
      const apart = await state()
      expected ??= apart
      expect(apart).toEqual({ counts, list: expected.list, waiting: 0 })
      expect(granted(await recheck(callOf(store))).differences).toEqual([])
      // The same reports again, in the same order and the other way round, are known and change nothing.
      const told = store.reader.loadHistory('P1')?.history.changes
      for (const report of [...order, ...order.toReversed()]) {
        const files = await take(store, [FORMATS[format]([report])])
        expect(files.map((one) => [one.rows - one.known, one.held])).toEqual([[0, 0]])
      }
      expect(store.reader.loadHistory('P1')?.history.changes).toEqual(told)

      const together = await freshStore()
      await takeLevel(together.store)
      await take(together.store, [FORMATS[format](order)])
      const other = together.store.reader.versionsOfPatient('P1').filter(({ result }) => result.accession === 'R')
      expect(other.filter(({ current }) => current).map(({ result }) => `${result.status} ${result.provenance.valueText}`.trim())).toEqual([counts])
      expect((await listText(together.store)).replace(/"line":\d+/g, '')).toBe(expected.list)
      // Nobody could have seen what one file brings and takes back.
      expect(together.store.reader.loadHistory('P1')?.history.changes).toEqual([])
      await together.dispose()
    })
  })
})

test('the same reports give the same patient in every format', async () => {
  const told = await Promise.all(
    (Object.keys(FORMATS) as Format[]).map(async (format) => {
      const fresh = await freshStore()
      await takeLevel(fresh.store)
      for (const report of [PRELIMINARY, FINAL, CORRECTED]) await take(fresh.store, [FORMATS[format]([report])])
      const { findings, history } = await seen(fresh.store)
      await fresh.dispose()
      return [...findings, ...history].map(({ rule, state, certainty, says, cautions }) => [rule, state, certainty, says, cautions])
    }),
  )
  expect(told[1]).toEqual(told[0])
  expect(told[2]).toEqual(told[0])
})
