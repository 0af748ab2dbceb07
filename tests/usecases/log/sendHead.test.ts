import { createSocket } from 'node:dgram'
import { appendFileSync, readFileSync, statSync } from 'node:fs'
import { type AddressInfo, createServer } from 'node:net'
import { dirname, join } from 'node:path'
import { afterEach, beforeEach, expect, test } from 'vitest'
import type { Store } from '../../../lib/store/index.ts'
import { readHeads } from '../../../lib/trail/index.ts'
import { headPlace, logHealth, sendHead, sendHeadsEvery, verifyLog } from '../../../lib/usecases/index.ts'
import { folderOf, freshStore } from '../../store/freshStore.ts'
import { callOf, granted, logged, NOW } from '../accounts/persons.ts'
import { daysOf, write } from './written.ts'

let fresh: { store: Store; url: string; dispose: () => Promise<void> }
let file: string
beforeEach(async () => {
  fresh = await freshStore()
  file = join(folderOf(fresh.url), 'heads')
  await write(fresh.store, ...daysOf(2025, 3))
})
afterEach(() => fresh.dispose())

const send = (to: string) => {
  const place = headPlace(to)
  if (typeof place === 'string') throw new Error(place)
  return sendHead(callOf(fresh.store), place)
}

/** RFC 5424: facility 13 (log audit), severity 5, version 1, time, host, program, process, message id, no structured data. */
const RFC_5424 = /^<109>1 2026-11-25T10:00:00\.000Z \S+ lowmark \d+ LOGHEAD - log head (\d+ [0-9a-f]{64} 2026-11-25T10:00:00\.000Z [0-9a-f]{32})\n$/

test('to a file: one line a head, for its owner alone, and the log agrees with it', async () => {
  granted(await send(file))
  await write(fresh.store, ...daysOf(2026, 2))
  granted(await send(file))
  expect(statSync(file).mode & 0o777).toBe(0o600)
  const heads = readHeads(readFileSync(file, 'utf8'))
  expect(heads.map(({ sequence, at }) => [sequence, at])).toEqual([
    [3, NOW],
    [6, NOW],
  ])
  expect(granted(await verifyLog(callOf(fresh.store), { heads }))).toMatchObject({ firstBad: null, heads: { agree: 2 } })
  const { headSent } = logHealth(fresh.store.reader)
  expect(headSent).toEqual({ sent: { at: NOW, sequence: 6, hash: heads[1]?.hash, to: file }, failed: null })
})

test('to a file whose last line was cut off: the new head stands on a line of its own', async () => {
  appendFileSync(file, '12 abc')
  granted(await send(file))
  expect(readFileSync(file, 'utf8').split('\n')[0]).toBe('12 abc')
  expect(readHeads(readFileSync(file, 'utf8')).map(({ sequence }) => sequence)).toEqual([3])
})

test('to a syslog server over UDP, as RFC 5424 has it', async () => {
  const server = createSocket('udp4')
  await new Promise<void>((resolve) => server.bind(0, '127.0.0.1', resolve))
  const heard = new Promise<string>((resolve) => server.once('message', (bytes) => resolve(bytes.toString())))
  granted(await send(`syslog:127.0.0.1:${server.address().port}`))
  const [, line = ''] = RFC_5424.exec(await heard) ?? []
  expect(readHeads(line)).toEqual([
    {
      ...fresh.store.reader.trailRows({ after: 2, upTo: 3, limit: 1 }).map(({ sequence, hash }) => ({ sequence, hash }))[0],
      at: NOW,
      databaseId: fresh.store.reader.databaseId(),
    },
  ])
  server.close()
})

test('to a syslog server over TCP', async () => {
  let heard = ''
  const server = createServer((socket) => socket.on('data', (bytes) => (heard += bytes.toString())))
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  granted(await send(`syslog+tcp:127.0.0.1:${(server.address() as AddressInfo).port}`))
  while (!heard.endsWith('\n')) await new Promise((resolve) => setTimeout(resolve, 5))
  expect(heard).toMatch(RFC_5424)
  await new Promise((resolve) => server.close(resolve))
})

test('a server that is not there: the reason is told and kept, the head sent before stays known, both are entries', async () => {
  granted(await send(file))
  const server = createServer()
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const { port } = server.address() as AddressInfo
  await new Promise((resolve) => server.close(resolve))
  expect(await send(`syslog+tcp:127.0.0.1:${port}`)).toMatchObject({
    ok: false,
    kind: 'unavailable',
    reason: expect.stringContaining('ECONNREFUSED'),
  })
  expect(await send(dirname(file))).toMatchObject({ ok: false, kind: 'unavailable', reason: expect.stringContaining('EISDIR') })
  expect(logHealth(fresh.store.reader).headSent).toMatchObject({ sent: { sequence: 3, to: file }, failed: { at: NOW, to: dirname(file) } })
  const sent = logged(fresh.store).filter(({ action }) => action === 'log-head-sent')
  expect(sent.map(({ outcome }) => outcome)).toEqual(['success', 'failure', 'failure'])
})

test('at an interval: again and again, failures told, until it is stopped', async () => {
  const failures: string[] = []
  const told = { call: async () => callOf(fresh.store), onFailure: (sentence: string) => failures.push(sentence) }
  const sending = sendHeadsEvery({ kind: 'file', path: file }, 0.02, told)
  while ((logHealth(fresh.store.reader).headSent.sent?.sequence ?? 0) < 5) await new Promise((resolve) => setTimeout(resolve, 5))
  await sending.stop()
  expect(
    readHeads(readFileSync(file, 'utf8'))
      .map(({ sequence }) => sequence)
      .slice(0, 3),
  ).toEqual([3, 4, 5])
  const before = fresh.store.reader.trailHead().sequence
  await new Promise((resolve) => setTimeout(resolve, 60))
  expect([fresh.store.reader.trailHead().sequence, failures]).toEqual([before, []])
  const failing = sendHeadsEvery({ kind: 'file', path: dirname(file) }, 60, told)
  await failing.stop()
  expect(failures).toEqual([expect.stringContaining('could not be sent')])
})

test.each(['', 'syslog:', 'syslog:host', 'syslog:host:0', 'syslog:host:70000', 'syslog+udp:host:514', 'syslog:a b:514'])('%j is no place', (text) => {
  expect(headPlace(text)).toEqual(expect.any(String))
})

test('an address of IPv6 stands in brackets', () => {
  expect(headPlace('syslog:[::1]:514')).toEqual({ kind: 'syslog', host: '::1', port: 514 })
  expect(headPlace('./heads')).toEqual({ kind: 'file', path: './heads' })
})
