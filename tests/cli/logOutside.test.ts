import { spawn } from 'node:child_process'
import { existsSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { openStore } from '../../lib/store/index.ts'
import { readHeads } from '../../lib/trail/index.ts'
import { folderOf, freshUrl } from '../store/freshStore.ts'
import { cutTail, daysOf, write } from '../usecases/log/written.ts'
import { json, lowmark } from './terminal.ts'

let url: string
let beside: (name: string) => string
beforeEach(async () => {
  url = freshUrl()
  beside = (name) => join(folderOf(url), name)
  const store = await openStore(url)
  await write(store, ...daysOf(2018, 5), ...daysOf(2026, 3))
  await store.close()
})
afterEach(() => {
  vi.unstubAllEnvs()
})

test('log export writes a file once, for its owner alone, and log verify --file needs no database', async () => {
  const file = beside('log.ndjson')
  expect(await lowmark(url, 'log', 'export', file)).toMatchObject({ status: 0, out: '', err: `Entries 1 to 8 are in "${file}".\n` })
  expect(statSync(file).mode & 0o777).toBe(0o600)
  expect(await lowmark(url, 'log', 'export', file)).toMatchObject({ status: 1, err: expect.stringContaining('is there already') })
  const nowhere = `file:${beside('none/lowmark.db')}`
  const alone = await lowmark(nowhere, 'log', 'verify', '--file', file, '--json')
  expect([alone.status, json(alone)]).toMatchObject([0, { ok: true, rows: 8, first: 1, last: 8, firstBad: null }])
  expect(existsSync(beside('none'))).toBe(false)
  writeFileSync(file, readFileSync(file, 'utf8').replace('a physician', 'a navigator'))
  expect(await lowmark(nowhere, 'log', 'verify', '--file', file)).toMatchObject({
    status: 1,
    out: expect.stringContaining('entry 1 (line 1) is missing or was changed'),
    err: expect.stringContaining('docs/log.md'),
  })
})

test('log export - writes lines to standard output, and nothing else', async () => {
  const { status, out, err } = await lowmark(url, 'log', 'export', '--from', '2', '--to', '2018-03-04', '-')
  expect([status, err]).toEqual([0, ''])
  const lines = out.trimEnd().split('\n')
  expect(lines.map((line) => (JSON.parse(line) as { id: string }).id)).toEqual(['2', '3', '4'])
})

test('log head --to a file, and log verify --head with it finds a cut tail and says what to do', async () => {
  const heads = beside('heads')
  const sent = await lowmark(url, 'log', 'head', '--to', heads, '--json')
  expect(json(sent)).toMatchObject({ sequence: 8, databaseId: expect.stringMatching(/^[0-9a-f]{32}$/) })
  expect((await lowmark(url, 'log', 'verify', '--head', heads)).status).toBe(0)
  const { hash = '' } = readHeads(readFileSync(heads, 'utf8'))[0] ?? {}
  expect((await lowmark(url, 'log', 'verify', '--head', `8:${hash}`)).status).toBe(0)
  cutTail(url, 6)
  const cut = await lowmark(url, 'log', 'verify', '--head', heads, '--json')
  expect([cut.status, json(cut)]).toMatchObject([1, { ok: false, firstBad: 7 }])
  expect(cut.err).toContain('Copy the database file and the heads as they are now')
})

test('log head --to a server that is not there ends with 1 and the reason', async () => {
  expect(await lowmark(url, 'log', 'head', '--to', 'syslog+tcp:127.0.0.1:1')).toMatchObject({
    status: 1,
    err: expect.stringContaining('could not be sent to syslog+tcp:127.0.0.1:1'),
  })
})

// A program of its own starts slowly on a busy machine.
const PATIENCE_MS = 180_000

test(
  'log head --every sends until it is stopped',
  async () => {
    const heads = beside('heads')
    const args = ['--import', 'tsx', 'lib/cli/main.ts', 'log', 'head', '--to', heads, '--every', '1']
    const child = spawn(process.execPath, args, { env: { ...process.env, DATABASE_URL: url }, stdio: 'ignore' })
    const ended = new Promise<number | null>((resolve) => child.once('exit', (status) => resolve(status)))
    const sent = () => (existsSync(heads) ? readHeads(readFileSync(heads, 'utf8')).map(({ sequence }) => sequence) : [])
    while (sent().length < 2) await new Promise((resolve) => setTimeout(resolve, 20))
    child.kill('SIGTERM')
    expect([await ended, sent().slice(0, 2)]).toEqual([0, [8, 9]])
  },
  PATIENCE_MS,
)

test('log retire moves the oldest entries, and log verify --joined holds both together', async () => {
  const file = beside('old.ndjson')
  const retired = await lowmark(url, 'log', 'retire', '--before', '2019-01-01', '--to', file, '--json')
  expect([retired.status, json(retired)]).toMatchObject([0, { first: 1, last: 5, rows: 5, sha256: expect.stringMatching(/^[0-9a-f]{64}$/) }])
  expect((await lowmark(url, 'log', 'verify')).status).toBe(0)
  expect(json(await lowmark(url, 'log', 'verify', '--joined', '--file', file, '--json'))).toMatchObject({ ok: true, firstBad: null })
  expect(await lowmark(url, 'log', 'retire', '--before', '2024-01-01', '--to', file)).toMatchObject({
    status: 1,
    err: expect.stringContaining('The log is kept for 6 years'),
  })
})

test.each([
  [['log', 'export'], 'FILE is missing'],
  [['log', 'export', '--from', 'yesterday', '-'], '--from takes a day'],
  [['log', 'retire', '--before', '2019-02-30', '--to', 'x'], '--before takes a day'],
  [['log', 'retire', '--before', '2019-02-03'], '--to FILE is missing'],
  [['log', 'head', '--every', '5'], '--every SECONDS needs --to'],
  [['log', 'head', '--to', 'x', '--every', '100000'], 'at most 86400'],
  [['log', 'head', '--to', 'syslog:nowhere'], 'no syslog server'],
  [['log', 'verify', '--joined'], '--joined needs --file'],
  [['log', 'verify', '--file', 'a', '--file', 'b'], 'one --file at a time'],
])('wrong words %j', async (words, says) => {
  expect(await lowmark(url, ...words)).toMatchObject({ status: 2, out: '', err: expect.stringContaining(says) })
})

test('a file of heads without any, and a file that is not there, end with 1', async () => {
  writeFileSync(beside('empty'), 'nothing here\n')
  expect(await lowmark(url, 'log', 'verify', '--head', beside('empty'))).toMatchObject({ status: 1, err: expect.stringContaining('holds no head') })
  expect(await lowmark(url, 'log', 'verify', '--file', beside('gone'))).toMatchObject({ status: 1, err: expect.stringContaining('ENOENT') })
})
