import { createHash } from 'node:crypto'
import { afterEach, beforeEach, expect, test } from 'vitest'
import { FILE_CHUNK_BYTES, type Store } from '../../lib/store/index.ts'
import { freshStore } from './freshStore.ts'
import { withoutGuards } from './guards.ts'
import { fromOutside } from './outside.ts'
import { CALL, FILE } from './samples.ts'
import { countOf } from './tables.ts'

let store: Store
let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  ;({ store, url, dispose } = await freshStore())
})
afterEach(() => dispose())

const SEEN = { action: 'patient-opened', patientId: 'P1' } as const
const LARGE = Buffer.from(Array.from({ length: FILE_CHUNK_BYTES * 2 + 5 }, (_, at) => (at * 7) % 253))
const SHA256 = createHash('sha256').update(LARGE).digest('hex')
const pieceAt = (number: number): Uint8Array => LARGE.subarray((number - 1) * FILE_CHUNK_BYTES, number * FILE_CHUNK_BYTES)

const announced = () =>
  store.record(CALL, (tx) => ({ value: tx.insertFile({ ...FILE, bytes: { sha256: SHA256, byteCount: LARGE.length } }), events: [SEEN] }))
const keep = (...numbers: number[]) =>
  store.record(CALL, (tx) => {
    for (const number of numbers) tx.insertFileChunk(SHA256, number, pieceAt(number))
    return { value: null, events: [SEEN] }
  })

test('a large file is kept in pieces of one MiB, whether it comes at once or a piece at a time, and read piece by piece', async () => {
  const id = await announced()
  await keep(1)
  await keep(2, 3)
  expect([...store.reader.fileChunks(id)].map(({ byteLength }) => byteLength)).toEqual([FILE_CHUNK_BYTES, FILE_CHUNK_BYTES, 5])
  expect(Buffer.compare(store.reader.fileBytes(id) ?? Buffer.alloc(0), LARGE)).toBe(0)
  const again = await store.record(CALL, (tx) => ({ value: tx.insertFile({ ...FILE, bytes: LARGE }), events: [SEEN] }))
  expect(Buffer.compare(store.reader.fileBytes(again) ?? Buffer.alloc(0), LARGE)).toBe(0)
  expect(countOf(url, 'intake_file_chunk')).toBe(3)
  expect(store.reader.fileBytes(99)).toBeNull()
})

test('an interrupted file says how much of it is kept; sent again, the missing pieces follow', async () => {
  const id = await announced()
  await keep(1, 2)
  expect(() => store.reader.fileBytes(id)).toThrow(`only ${2 * FILE_CHUNK_BYTES} of ${LARGE.length} bytes are kept; send it again`)
  await announced()
  await keep(1, 2, 3)
  expect(Buffer.compare(store.reader.fileBytes(id) ?? Buffer.alloc(0), LARGE)).toBe(0)
})

test('a file of an earlier version, kept in one piece, stays readable and gets no pieces', async () => {
  const db = fromOutside(url)
  db.run('INSERT INTO intake_file_bytes (sha256, bytes) VALUES (?, ?)', SHA256, LARGE)
  db.close()
  const id = await announced()
  await keep(1, 2, 3)
  expect(Buffer.compare(store.reader.fileBytes(id) ?? Buffer.alloc(0), LARGE)).toBe(0)
  expect(countOf(url, 'intake_file_chunk')).toBe(0)
})

test('a piece is never changed or removed; one forged behind the program is told by its digest', async () => {
  const id = await announced()
  await keep(1, 2, 3)
  const db = fromOutside(url)
  const forge = () => db.run('UPDATE intake_file_chunk SET bytes = ? WHERE number = 3', Buffer.from([1, 2, 3, 4, 5]))
  expect(forge).toThrow('never changed')
  expect(() => db.run('DELETE FROM intake_file_chunk')).toThrow('never removed')
  withoutGuards(db, forge)
  db.close()
  expect(() => store.reader.fileBytes(id)).toThrow('their SHA-256 differs')
})
