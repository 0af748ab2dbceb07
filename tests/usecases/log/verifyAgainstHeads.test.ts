import { afterEach, beforeEach, expect, test } from 'vitest'
import { openStore, type Store } from '../../../lib/store/index.ts'
import { headLine, type KeptHead, readHeads } from '../../../lib/trail/index.ts'
import { logHealth, verifyLog } from '../../../lib/usecases/index.ts'
import { copyOf, freshUrl } from '../../store/freshStore.ts'
import { callOf, granted, NOW } from '../accounts/persons.ts'
import { cutTail, daysOf, rewrite, write } from './written.ts'

let url: string
let store: Store
let heads: KeptHead[]

function keepHead(): void {
  heads.push({ ...store.reader.trailHead(), at: NOW, databaseId: store.reader.databaseId() })
}

beforeEach(async () => {
  url = freshUrl()
  store = await openStore(url)
  heads = []
  await write(store, ...daysOf(2024, 4))
  keepHead()
  await write(store, ...daysOf(2025, 6))
  keepHead()
})
afterEach(() => store.close())

const verified = async (kept: readonly KeptHead[]) => granted(await verifyLog(callOf(store), { heads: kept }))

test('a log that was only added to agrees with every head kept of it', async () => {
  expect(await verified(heads)).toMatchObject({ rows: 10, firstBad: null, heads: { agree: 2, retired: 0 } })
  await write(store, ...daysOf(2026, 3))
  const { says, firstBad } = await verified(heads)
  expect([firstBad, says]).toEqual([null, 'The log is whole: 14 rows, each fits the one before. It agrees with 2 heads kept elsewhere.'])
  expect(logHealth(store.reader).verified).toEqual({ at: NOW, rows: 14, firstBad: null, heads: 2 })
})

test('a tail that was cut off shows against a head, and not without one', async () => {
  cutTail(url, 8)
  const found = await verified(heads)
  expect(found).toMatchObject({ firstBad: 9, heads: { agree: 1 } })
  expect(found.says).toContain('entry 9 is the first that is not there')
  expect(logHealth(store.reader).verified).toMatchObject({ firstBad: 9 })
  expect(await verified([])).toMatchObject({ firstBad: null })
})

test('a cut tail that was filled up again with other entries shows as written anew', async () => {
  cutTail(url, 8)
  await write(store, ...daysOf(2026, 5))
  expect(await verified([])).toMatchObject({ firstBad: null })
  const found = await verified(heads)
  expect(found).toMatchObject({ firstBad: 5 })
  expect(found.says).toContain('somewhere from entry 5 to 10')
})

test.each([
  [2, 1, 'somewhere from entry 1 to 4'],
  [7, 5, 'somewhere from entry 5 to 10'],
])('a log written anew from entry %i, all hashes new, shows against a head and not without one', async (sequence, firstBad, says) => {
  rewrite(url, sequence, 'somebody else')
  const found = await verified(heads)
  expect(found.firstBad).toBe(firstBad)
  expect(found.says).toContain(says)
  expect(await verified([])).toMatchObject({ firstBad: null })
})

test('an older copy of the database in its place shows against a head, and not without one', async () => {
  await store.close()
  const older = copyOf(url)
  store = await openStore(url)
  await write(store, ...daysOf(2026, 2))
  keepHead()
  await store.close()
  store = await openStore(older)
  expect(await verified(heads)).toMatchObject({ firstBad: 11, heads: { agree: 2 } })
  expect(await verified([])).toMatchObject({ firstBad: null })
})

test('another database in its place shows by its identity, however many entries it has', async () => {
  const other = await openStore(freshUrl())
  await write(other, ...daysOf(2024, 12))
  const found = granted(await verifyLog(callOf(other), { heads }))
  expect(found.firstBad).toBe(1)
  expect(found.says).toContain('another database')
  await other.close()
})

test('heads are read from lines of ours, of a syslog server, and of number and hash alone', () => {
  const [first, second] = heads
  if (first === undefined || second === undefined) throw new Error('no heads')
  const text = [
    headLine(first),
    'a line of something else',
    `2026-11-25T10:00:00Z host lowmark 12 LOGHEAD - log head ${headLine(second)}`,
    `${second.sequence} ${second.hash}`,
    `${second.sequence} ${second.hash.slice(1)}`,
    '',
  ].join('\n')
  expect(readHeads(text)).toEqual([first, second, { ...second, at: null, databaseId: null }])
  expect(readHeads(`${second.sequence}:${second.hash}`)).toEqual([{ ...second, at: null, databaseId: null }])
})
