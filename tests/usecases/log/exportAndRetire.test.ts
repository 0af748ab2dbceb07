import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { day } from '../../../lib/time/index.ts'
import { exportLog, type LogBound, retireLog, verifyExport, verifyLog } from '../../../lib/usecases/index.ts'
import { folderOf, freshStore } from '../../store/freshStore.ts'
import { withoutGuards } from '../../store/guards.ts'
import { fromOutside } from '../../store/outside.ts'
import { callOf, granted, logged } from '../accounts/persons.ts'
import { daysOf, write } from './written.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let file: string
beforeEach(async () => {
  fresh = await freshStore()
  file = join(folderOf(fresh.url), 'log.ndjson')
  await write(fresh.store, ...daysOf(2018, 5), ...daysOf(2019, 4), ...daysOf(2026, 3))
})
afterEach(() => {
  vi.unstubAllEnvs()
  return fresh.dispose()
})

async function exported(role: 'console' | 'administrator' | 'quality', from: LogBound | null = null, to: LogBound | null = null): Promise<string> {
  return [...granted(await exportLog(callOf(fresh.store, role), { from, to })).chunks()].join('')
}

const numbersOf = (text: string): number[] =>
  text
    .trimEnd()
    .split('\n')
    .map((line) => Number((JSON.parse(line) as { id: string }).id))

test('an export verifies by itself, and against a head that falls into it', async () => {
  const head = { ...fresh.store.reader.trailHead(), at: null, databaseId: null }
  writeFileSync(file, await exported('administrator'))
  expect(verifyExport(file, [head])).toMatchObject({ rows: 12, first: 1, last: 12, firstBad: null, says: expect.stringContaining('1 of 1 heads') })
  const { says, firstBad } = verifyExport(file, [{ ...head, hash: 'e'.repeat(64) }])
  expect([firstBad, says]).toEqual([1, expect.stringContaining('written anew')])
  expect(logged(fresh.store).at(-1)).toMatchObject({ actor: 'a administrator', action: 'log-exported' })
})

test('whatever is taken out of an export or changed in it is named by its number', async () => {
  const lines = (await exported('console')).trimEnd().split('\n')
  const without = (index: number) => lines.filter((_, at) => at !== index)
  const cases: [readonly string[], number | null, string][] = [
    [without(5), 6, 'entry 6 (line 6) is missing or was changed'],
    [lines.map((line, at) => (at === 4 ? line.replace('a physician', 'a navigator') : line)), 5, 'entry 5 (line 5)'],
    [lines.map((line, at) => (at === 4 ? line.slice(0, -9) : line)), 5, 'line 5 is no entry'],
    [[...lines.slice(0, 3), '{}', ...lines.slice(3)], 4, 'line 4 is no entry'],
    [[], 1, 'holds no entry'],
    [without(0), null, 'entries 2 to 12'],
    [without(11), null, 'entries 1 to 11'],
  ]
  for (const [given, firstBad, says] of cases) {
    writeFileSync(file, given.map((line) => `${line}\n`).join(''))
    expect(verifyExport(file, [])).toMatchObject({ firstBad, says: expect.stringContaining(says) })
  }
})

test('entries are asked for by number or by day, both ends included', async () => {
  expect(numbersOf(await exported('console', { sequence: 3 }, { sequence: 5 }))).toEqual([3, 4, 5])
  expect(numbersOf(await exported('console', { day: day('2018-03-05') }, { day: day('2019-03-01') }))).toEqual([5, 6])
  expect(numbersOf(await exported('console', { day: day('2026-03-03') }))).toEqual([12, 13, 14])
  for (const [from, to] of [
    [{ sequence: 9 }, { sequence: 8 }],
    [{ day: day('2099-01-01') }, null],
  ] as const)
    expect(await exportLog(callOf(fresh.store), { from, to })).toMatchObject({ ok: false, kind: 'invalid' })
})

test('the export for quality names patients by pseudonym, holds no hash, and says that it cannot be verified', async () => {
  const text = await exported('quality')
  expect(numbersOf(text)).toHaveLength(12)
  expect(text).not.toContain('P1')
  expect(text).not.toContain(fresh.store.reader.trailHead().hash)
  expect(text.split('\n')[0]).toContain('PSEUDED')
  writeFileSync(file, text)
  expect(verifyExport(file, [])).toMatchObject({ firstBad: 1, says: expect.stringContaining('cannot be verified') })
})

const retire = (before: string) => retireLog(callOf(fresh.store), { before: day(before), file })

test('the oldest entries go to a file that verifies, the rest goes on from them, and joined they are the whole log', async () => {
  const heads = [2, 5, 8].map((sequence) => ({ sequence, hash: fresh.store.reader.trailHashAt(sequence) ?? '', at: null, databaseId: null }))
  expect(granted(await retire('2019-01-01'))).toMatchObject({ first: 1, last: 5, rows: 5 })
  expect(fresh.store.reader.firstTrailRow()).toBe(6)
  expect(verifyExport(file, [])).toMatchObject({ first: 1, last: 5, firstBad: null })
  expect(granted(await verifyLog(callOf(fresh.store), { heads }))).toMatchObject({ rows: 8, firstBad: null, heads: { agree: 2, retired: 1 } })
  const joined = granted(await verifyLog(callOf(fresh.store), { heads, files: [file] }))
  expect(joined).toMatchObject({ rows: 14, firstBad: null, heads: { agree: 3, retired: 0 } })
  const forged = heads.map((head) => (head.sequence === 2 ? { ...head, hash: 'e'.repeat(64) } : head))
  expect(granted(await verifyLog(callOf(fresh.store), { heads: forged, files: [file] })).firstBad).toBe(1)
  const second = `${file}.2`
  expect(granted(await retireLog(callOf(fresh.store), { before: day('2020-01-01'), file: second }))).toMatchObject({ first: 6, last: 9 })
  expect(granted(await verifyLog(callOf(fresh.store), { files: [file, second] })).firstBad).toBe(null)
  expect(logged(fresh.store).filter(({ action }) => action === 'log-retired')).toHaveLength(2)
})

test('a retired file that was exchanged for one with a chain of its own is no part of this log', async () => {
  granted(await retire('2019-01-01'))
  writeFileSync(file, readFileSync(file, 'utf8').split('\n').slice(0, 4).join('\n'))
  expect(granted(await verifyLog(callOf(fresh.store), { files: [file] }))).toMatchObject({
    firstBad: 1,
    says: expect.stringContaining('not what was retired'),
  })
})

test('nothing younger than six years goes, more where the clinic says so, and never the last entry', async () => {
  expect(await retire('2020-11-26')).toMatchObject({ ok: false, reason: expect.stringContaining('no later than 2020-11-25') })
  vi.stubEnv('LOWMARK_LOG_KEEP_YEARS', '10')
  expect(await retire('2019-01-01')).toMatchObject({ ok: false, reason: expect.stringContaining('kept for 10 years') })
  vi.stubEnv('LOWMARK_LOG_KEEP_YEARS', '5')
  await expect(retire('2019-01-01')).rejects.toThrow('at least 6 years')
  vi.unstubAllEnvs()
  expect(await retire('2018-01-01')).toMatchObject({ ok: false, kind: 'invalid' })
  expect(existsSync(file)).toBe(false)
  const old = await freshStore()
  await write(old.store, ...daysOf(2018, 3))
  expect(granted(await retireLog(callOf(old.store), { before: day('2020-01-01'), file }))).toMatchObject({ first: 1, last: 2 })
  await old.dispose()
})

test('a file that is there and holds something else is left as it is, and nothing is removed', async () => {
  writeFileSync(file, 'something else')
  await expect(retire('2019-01-01')).rejects.toThrow('holds something else')
  expect(readFileSync(file, 'utf8')).toBe('something else')
  expect(existsSync(`${file}.part`)).toBe(false)
  expect(fresh.store.reader.firstTrailRow()).toBe(1)
})

test('a log that does not hold is not retired, and only the console retires', async () => {
  expect(await retireLog(callOf(fresh.store, 'administrator'), { before: day('2019-01-01'), file })).toMatchObject({ kind: 'not-allowed' })
  const db = fromOutside(fresh.url)
  withoutGuards(db, () => db.exec("UPDATE trail SET actor = 'x' WHERE sequence = 2"))
  db.close()
  expect(await retire('2019-01-01')).toMatchObject({ ok: false, reason: expect.stringContaining('from row 2 on') })
  expect(existsSync(file)).toBe(false)
})
