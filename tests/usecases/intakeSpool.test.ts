import { spawnSync } from 'node:child_process'
import { readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import fc from 'fast-check'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { acceptFiles, acceptFilesApart, clearSpools, openSpool, spoolFiles } from '../../lib/usecases/index.ts'
import { freshStore, incomingOf } from '../store/freshStore.ts'
import { callOf, granted } from './accounts/persons.ts'
import { counts, only } from './clinic.ts'

let store: Store
let directory: string
let dispose: () => Promise<void>
let before: string | undefined
beforeEach(async () => {
  const fresh = await freshStore()
  ;({ store, dispose } = fresh)
  before = process.env.DATABASE_URL
  process.env.DATABASE_URL = fresh.url
  directory = incomingOf(fresh.url)
})
afterEach(async () => {
  if (before === undefined) delete process.env.DATABASE_URL
  else process.env.DATABASE_URL = before
  await dispose()
})

const CSV = Buffer.from('patient_id,birth_date,sex\nP1,1950,female\nP2,1951,male\n')

async function* inPieces(bytes: Uint8Array, length: number): AsyncGenerator<Uint8Array> {
  for (let from = 0; from < bytes.byteLength; from += length) yield bytes.subarray(from, from + length)
}

function lying(): readonly string[] {
  try {
    return readdirSync(directory)
  } catch {
    return []
  }
}

test('a file that arrives lies beside the database for its owner alone, is taken in by its place, and is gone afterwards', async () => {
  const spooled = granted(await spoolFiles([{ name: 'patients.csv', size: CSV.length }], inPieces(CSV, 7)))
  const [file] = spooled.files
  expect(readFileSync(file?.path ?? '')).toEqual(CSV)
  expect([statSync(file?.path ?? '').mode & 0o777, statSync(directory).mode & 0o777]).toEqual([0o600, 0o700])
  expect(dirname(file?.path ?? '')).toBe(directory)
  const [report] = granted(await acceptFilesApart(callOf(store), spooled.files, { source: null, dryRun: false }))
  expect(counts(report ?? expect.fail())).toEqual(only({ rows: 2, filed: 2 }))
  expect(store.reader.fileBytes(report?.fileId ?? 0)).toEqual(CSV)
  await spooled.drop()
  expect(lying()).toEqual([])
})

test('several files of one body are divided by their sizes, wherever the network cuts it', async () => {
  const sizes = fc.array(fc.nat(40), { minLength: 1, maxLength: 6 })
  await fc.assert(
    fc.asyncProperty(sizes, fc.integer({ min: 1, max: 90 }), async (lengths, cut) => {
      const body = Buffer.from(Array.from({ length: lengths.reduce((sum, size) => sum + size, 0) }, (_, at) => at % 251))
      const spooled = granted(
        await spoolFiles(
          lengths.map((size, at) => ({ name: `${at}`, size })),
          inPieces(body, cut),
        ),
      )
      expect(Buffer.concat(spooled.files.map(({ path }) => readFileSync(path)))).toEqual(body)
      expect(spooled.files.map(({ name, byteCount }) => [name, byteCount])).toEqual(lengths.map((size, at) => [`${at}`, size]))
      await spooled.drop()
      expect(lying()).toEqual([])
    }),
    { numRuns: 40 },
  )
})

test.each([
  ['fewer', CSV.length + 1, CSV.length],
  ['more', CSV.length - 1, 'more'],
])('%s bytes than announced are refused, and nothing of them is left', async (_what, size, arrived) => {
  const outcome = await spoolFiles([{ name: 'a.csv', size }], inPieces(CSV, 10))
  expect(outcome).toMatchObject({
    ok: false,
    kind: 'invalid',
    reason: expect.stringContaining(`${size} bytes were announced and ${arrived} arrived`),
  })
  expect(lying()).toEqual([])
})

test('a sender who announces little and sends without end is not listened to further', async () => {
  let sent = 0
  async function* endless(): AsyncGenerator<Uint8Array> {
    for (;;) {
      sent += 1000
      yield Buffer.alloc(1000, 97)
    }
  }
  expect(await spoolFiles([{ name: 'a.csv', size: 2_500 }], endless())).toMatchObject({ ok: false, kind: 'invalid' })
  expect(sent).toBe(3_000)
  expect(await spoolFiles([{ name: 'a.csv', size: 2 ** 30 }], endless())).toMatchObject({ ok: false, reason: expect.stringContaining('512 MiB') })
  expect(sent).toBe(3_000)
  expect(lying()).toEqual([])
})

test('a connection that breaks leaves nothing behind', async () => {
  async function* breaking(): AsyncGenerator<Uint8Array> {
    yield CSV
    throw new Error('the connection broke')
  }
  await expect(spoolFiles([{ name: 'a.csv', size: 1000 }], breaking())).rejects.toThrow('the connection broke')
  expect(lying()).toEqual([])
})

test('over the limit nothing is kept, nothing more is asked for, and the file is refused whole with its name in the log', async () => {
  const spool = await openSpool('large.csv', 100)
  expect([await spool.write(Buffer.alloc(60, 97)), await spool.write(Buffer.alloc(60, 97)), await spool.write(Buffer.alloc(60, 97))]).toEqual([
    true,
    false,
    false,
  ])
  const file = await spool.end()
  expect([file.byteCount, statSync(file.path).size]).toEqual([null, 0])
  const [report] = granted(await acceptFiles(callOf(store), [file], { source: null, dryRun: false }))
  expect(report).toMatchObject({ fileId: null, refusedWhole: { reason: 'file-too-large', sentence: expect.stringContaining('more than 512 MiB') } })
  expect(store.reader.trailPage({ actor: null, limit: 1, offset: 0 }).rows[0]?.event).toMatchObject({
    action: 'intake-refused',
    fileName: 'large.csv',
  })
  await spool.drop()
})

test('what a program left that ended is taken away at the next start; what is still arriving stays', async () => {
  const spool = await openSpool('arriving.csv')
  const [own = ''] = lying()
  const ended = spawnSync('true').pid
  for (const name of [`${ended}-left`, `${process.pid}-of-an-earlier-process-of-this-number`, `${process.ppid}-of-a-running-one`]) {
    writeFileSync(join(directory, name), 'x')
  }
  clearSpools()
  expect(lying().toSorted()).toEqual([own, `${process.ppid}-of-a-running-one`].toSorted())
  await spool.drop()
})
