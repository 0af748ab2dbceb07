import { mkdtempSync, rmSync, truncateSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { startChild } from './child.ts'
import { writeBundle } from './largeBundle.ts'

const MIB = 1024 * 1024
const folder = mkdtempSync(join(tmpdir(), 'lowmark-large-'))
const path = join(folder, 'large.json')
let rows = 0

beforeAll(() => {
  rows = writeBundle(path, 40 * MIB)
})
afterAll(() => rmSync(folder, { recursive: true }))

async function read(file: string): Promise<Record<string, unknown> & { readonly peakMib: number }> {
  const child = startChild('readingLarge.ts', file)
  expect(await child.ended).toBe(0)
  return JSON.parse(child.lines.join(''))
}

test('a Bundle of 40 MiB is read in a fraction of the memory that holding it would take, patients last in it and first in what is read', async () => {
  const { peakMib, ...said } = await read(path)
  expect(said).toMatchObject({ ok: true, count: rows, rows, first: 'MR0' })
  // All but the patients and the organisation.
  expect(said.laboratories).toBe(rows - 1_001)
  // Held whole it took some twenty times its size, 800 MiB; a process that reads nothing takes some 100.
  expect(peakMib).toBeLessThan(400)
}, 240_000)

test('a file of a byte more than 512 MiB is refused by its length, hardly read', async () => {
  truncateSync(path, 512 * MIB + 1)
  const { peakMib, ...said } = await read(path)
  expect(said).toMatchObject({ ok: false, reason: 'file-too-large', sentence: 'large.json has 536870913 bytes; it may have at most 512 MiB.' })
  expect(said.bytesRead).toBeLessThan(MIB)
  expect(peakMib).toBeLessThan(250)
})
