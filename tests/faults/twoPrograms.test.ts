import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../lib/store/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { CALL } from '../store/samples.ts'
import { startChild, untilPrinted } from './child.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
beforeEach(async () => {
  fresh = await freshStore()
})
afterEach(() => fresh.dispose())

const EACH = 300

test('two programs write at once: every acknowledged write is there and the log is whole', async () => {
  const children = ['a', 'b'].map((prefix) => startChild('writing.ts', fresh.url, prefix, String(EACH)))
  expect(await Promise.all(children.map((child) => child.ended))).toEqual([0, 0])
  const { reader } = fresh.store
  for (const [index, prefix] of ['a', 'b'].entries()) {
    expect(children[index]?.lines).toHaveLength(EACH)
    for (let n = 0; n < EACH; n++) expect(reader.setting(`${prefix}-${n}-two`)?.length).toBe(2000)
  }
  expect(reader.verifyTrail()).toMatchObject({ rows: 2 * EACH, firstBad: null })
})

test('a program killed while it writes: what it acknowledged is there, nothing is half there, and others go on', async () => {
  for (const after of [3, 40]) {
    const prefix = `k${after}`
    const child = startChild('writing.ts', fresh.url, prefix, '100000')
    await untilPrinted(child, after)
    child.process.kill('SIGKILL')
    expect(await child.ended).toBe(null)
    const acknowledged = child.lines.filter((line) => /^\d+$/.test(line)).map(Number)
    const { reader } = fresh.store
    for (const n of acknowledged) expect(reader.setting(`${prefix}-${n}-one`)?.length).toBe(2000)
    const next = (acknowledged.at(-1) ?? -1) + 1
    for (let n = 0; n <= next + 1; n++) expect(reader.setting(`${prefix}-${n}-one`)).toBe(reader.setting(`${prefix}-${n}-two`))
    expect(reader.setting(`${prefix}-${next + 1}-one`)).toBe(null)
    await fresh.store.record(CALL, (tx) => ({ value: tx.setSetting('after', prefix), events: [{ action: 'sign-out' }] }))
    expect(reader.setting('after')).toBe(prefix)
    expect(reader.verifyTrail().firstBad).toBe(null)
  }
})
