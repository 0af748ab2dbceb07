import { writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import { join } from 'node:path'
import { afterEach, beforeAll, beforeEach, describe, expect, test, vi } from 'vitest'
import { runCommand } from '../../lib/cli/index.ts'
import { isLoopback } from '../../lib/cli/listen/isLoopback.ts'
import { fileOf, msh, obr, obx, pid } from '../intake/hl7/messages.ts'
import { folderOf, freshStore, freshUrl } from '../store/freshStore.ts'
import { fromOutside } from '../store/outside.ts'
import { isMade } from '../store/tables.ts'
import { csv, patientRow, take } from '../usecases/clinic.ts'
import { type Issuer, issue } from './certificate.ts'
import { sender, told } from './sender.ts'
import { lowmark } from './terminal.ts'

const message = (id: string, accession = id) => fileOf(msh({ 3: 'LAB', 10: id }), pid(), obr({ 3: accession }), obx())

let url: string
let dispose: () => Promise<void>
beforeEach(async () => {
  const fresh = await freshStore()
  ;({ url, dispose } = fresh)
  await take(fresh.store, [csv('patients.csv', [patientRow()])])
  process.env.DATABASE_URL = url
})
afterEach(async () => {
  vi.useRealTimers()
  delete process.env.DATABASE_URL
  await dispose()
})

/** A listener of this process: its port, what it said, and its end by the signal of an operating system. */
async function listening(...words: string[]) {
  let said = ''
  const status = runCommand(['listen', '--port', '0', ...words], {
    out: () => undefined,
    err: (text) => {
      said += text
    },
  })
  const at = () => /Listening on \S+:(\d+) /.exec(said)?.[1]
  const ended = status.then((code) => {
    if (at() === undefined) throw new Error(`it ended with ${code}: ${said}`)
    return code
  })
  while (at() === undefined) await Promise.race([new Promise((resolve) => setTimeout(resolve, 5)), ended])
  return {
    port: Number(at()),
    said: () => said,
    async stop() {
      process.emit('SIGTERM')
      return ended
    },
  }
}

/** The log, oldest first: what was done, from where, and in the words a reader sees. */
function logged() {
  const db = fromOutside(url, { reading: true })
  const rows = db.all<{ action: string; address: string | null; event: string }>('SELECT action, address, event FROM trail ORDER BY sequence')
  db.close()
  return rows
}

test('it says where it listens, takes messages, and ends with 0 when it is asked to; the log tells all of it', async () => {
  const { port, said, stop } = await listening('--source', 'North')
  expect(said()).toBe(`Listening on 127.0.0.1:${port} without TLS for HL7 v2 messages (MLLP). Stop it with Ctrl-C or SIGTERM.\n`)
  const lab = sender(port)
  expect(told(await lab.send(message('M1')))).toBe('AA M1')
  expect(told(await lab.send(message('M1')))).toBe('AA M1')
  expect(told(await lab.send(message('M1', 'other')))).toBe('AR M1')
  expect(told(await lab.send(message('M2')))).toBe('AA M2')
  lab.write('MSH|^~\\&|Invented^Ann 14.2 g/L')
  await lab.ended
  expect(await stop()).toBe(0)
  expect(logged().map(({ action, address }) => [action, address])).toEqual([
    ['intake', null],
    ['listener-started', null],
    ['intake', '127.0.0.1'],
    ['message-repeated', '127.0.0.1'],
    ['intake-refused', '127.0.0.1'],
    ['intake', '127.0.0.1'],
    ['connection-closed', '127.0.0.1'],
    ['listener-stopped', null],
  ])
  expect(said().split('\n').slice(1)).toEqual([
    '127.0.0.1: a message was not accepted (hl7-control-id-used)',
    '127.0.0.1: a connection was closed without an acknowledgement (outside-frame)',
    `Stopped listening on 127.0.0.1:${port}.`,
    '',
  ])
  const events = logged().map(({ event }) => event)
  expect(events[6]).toBe('{"action":"connection-closed","reason":"outside-frame","source":"North"}')
  expect(`${events.join('')}${said()}`).not.toMatch(/Ann|14\.2|P1/)
})

test('the day is that of each message, not of the start', async () => {
  vi.useFakeTimers({ toFake: ['Date'] })
  vi.setSystemTime('2026-11-25T22:00:00Z')
  const { port, stop } = await listening()
  const lab = sender(port)
  await lab.send(message('M1'))
  vi.setSystemTime('2026-11-27T08:00:00Z')
  expect(await lab.send(message('M2'))).toContain('|20261127080000.000+0000|')
  lab.close()
  await stop()
  const db = fromOutside(url, { reading: true })
  const received = db.values("SELECT substr(received_at, 1, 10) FROM intake_file WHERE name LIKE 'HL7%' ORDER BY id")
  const evaluated = db.value('SELECT evaluated_on FROM standing')
  db.close()
  expect([received, evaluated]).toEqual([['2026-11-25', '2026-11-27'], '2026-11-27'])
})

test('the list and a file are taken beside it, by other programs', async () => {
  const { port, stop } = await listening()
  const labs = [sender(port), sender(port)]
  const path = join(folderOf(url), 'more.csv')
  writeFileSync(path, csv('more.csv', [patientRow({ patient_id: 'P2' })]).bytes)
  const many = labs.map(async (lab, at) => {
    for (let n = 0; n < 20; n++) expect(told(await lab.send(message(`M${at}-${n}`)))).toBe(`AA M${at}-${n}`)
  })
  expect([(await lowmark(url, 'list', '--json')).status, (await lowmark(url, 'intake', path)).status]).toEqual([0, 0])
  process.env.DATABASE_URL = url
  await Promise.all(many)
  for (const lab of labs) lab.close()
  await stop()
  expect(logged().filter(({ action }) => action === 'intake')).toHaveLength(42)
  expect((await lowmark(url, 'log', 'verify')).status).toBe(0)
})

test('a port another program has: exit 1, and why', async () => {
  const other = createServer()
  const port = await new Promise<number>((resolve) => {
    other.listen(0, '127.0.0.1', () => resolve((other.address() as { port: number }).port))
  })
  expect(await lowmark(url, 'listen', '--port', String(port))).toEqual({
    status: 1,
    out: '',
    err: `Nothing was done: 127.0.0.1, port ${port}, cannot be listened on: another program listens there.\n`,
  })
  other.close()
  expect(await lowmark(url, 'listen', '--port', '0', '--host', '192.0.2.1', '--without-tls')).toMatchObject({
    status: 1,
    err: expect.stringContaining('this machine has no such address'),
  })
  expect(logged()).toHaveLength(1)
})

test.each([
  [[], '--port N is missing'],
  [['--port', '65536'], '0 to 65535'],
  [['--port', '-1'], 'port'],
  [['--port', '1e3'], '"1e3"'],
  [['--port', '0', '--cert', 'a.pem'], 'given together'],
  [['--port', '0', '--key', 'a.pem'], 'given together'],
  [['--port', '0', '--ca', 'a.pem'], 'needs --cert'],
  [['--port', '0', '--host', '0.0.0.0'], 'could be read on the way'],
  [['--port', '0', '--host', 'example.org'], 'could be read on the way'],
  [['--port', '0', 'now'], 'one word too many'],
])('wrong words: exit 2, and no database made: %j', async (words, said) => {
  const nowhere = freshUrl()
  expect(await lowmark(nowhere, 'listen', ...words)).toMatchObject({ status: 2, out: '', err: expect.stringContaining(said) })
  expect(isMade(nowhere)).toBe(false)
})

test.each([
  ['127.0.0.1', true],
  ['127.9.9.9', true],
  ['::1', true],
  ['localhost', true],
  ['0.0.0.0', false],
  ['::', false],
  ['192.0.2.1', false],
  ['127.0.0.1.example.org', false],
  ['localhost.example.org', false],
])('%s is this machine alone: %s', (host, isOwn) => {
  expect(isLoopback(host)).toBe(isOwn)
})

describe('TLS', () => {
  let authority: Issuer
  let server: Issuer
  let own: readonly string[]
  beforeAll(() => {
    authority = issue('Invented Authority')
    server = issue('listener', authority)
  })
  beforeEach(() => {
    own = ['--cert', beside('cert.pem', server.cert), '--key', beside('key.pem', server.key)]
  })

  function beside(name: string, text: string): string {
    const path = join(folderOf(url), name)
    writeFileSync(path, text)
    return path
  }

  test('a sender that trusts the authority is served, over TLS 1.2 and 1.3', async () => {
    const { port, said, stop } = await listening(...own)
    expect(said()).toContain('with TLS')
    for (const [at, version] of (['TLSv1.2', 'TLSv1.3'] as const).entries()) {
      const lab = sender(port, { ca: authority.cert, minVersion: version, maxVersion: version })
      expect(told(await lab.send(message(`M${at}`)))).toBe(`AA M${at}`)
      lab.close()
    }
    const stranger = sender(port, { ca: issue('Another Authority').cert })
    expect(await stranger.send(message('M9'))).toBe(null)
    expect(await stop()).toBe(0)
    expect(logged()[1]?.event).toContain('"tls":"server"')
  })

  test('without TLS, and with TLS older than 1.2, nobody is served, and the log says so', async () => {
    const { port, stop } = await listening(...own)
    const plain = sender(port)
    expect(await plain.send(message('M1'))).toBe(null)
    const old = sender(port, { ca: authority.cert, minVersion: 'TLSv1', maxVersion: 'TLSv1.1', ciphers: 'DEFAULT@SECLEVEL=0' })
    expect(await old.send(message('M1'))).toBe(null)
    await stop()
    expect(logged().map(({ action }) => action)).toEqual(['intake', 'listener-started', 'connection-closed', 'connection-closed', 'listener-stopped'])
    expect(logged()[2]?.event).toContain('"reason":"tls-handshake"')
  })

  test('with --ca only senders with a certificate of that authority are served', async () => {
    const { port, stop } = await listening(...own, '--ca', beside('ca.pem', authority.cert))
    const known = issue('laboratory', authority)
    const lab = sender(port, { ca: authority.cert, cert: known.cert, key: known.key })
    expect(told(await lab.send(message('M1')))).toBe('AA M1')
    lab.close()
    const unknown = issue('laboratory', issue('Another Authority'))
    const others = [sender(port, { ca: authority.cert }), sender(port, { ca: authority.cert, cert: unknown.cert, key: unknown.key })]
    expect(await Promise.all(others.map((other) => other.send(message('M2'))))).toEqual([null, null])
    await stop()
    expect(logged().map(({ action }) => action)).toEqual([
      ...['intake', 'listener-started', 'intake', 'connection-closed', 'connection-closed', 'listener-stopped'],
    ])
    expect(logged()[1]?.event).toContain('"tls":"both"')
    expect(
      logged()
        .map(({ address }) => address)
        .slice(3, 5),
    ).toEqual(['127.0.0.1', '127.0.0.1'])
  })

  test('a certificate that cannot be read or does not fit its key: exit 1, and why', async () => {
    const listen = (...words: string[]) => lowmark(url, 'listen', '--port', '0', ...words)
    expect(await listen('--cert', 'nowhere.pem', '--key', 'nowhere.pem')).toMatchObject({ status: 1, err: expect.stringContaining('"nowhere.pem"') })
    expect(await listen(...own.slice(0, 3), beside('other.pem', authority.key))).toMatchObject({
      status: 1,
      err: expect.stringContaining('cannot be used'),
    })
    expect(await listen(...own, '--ca', beside('empty.pem', 'nothing'))).toMatchObject({
      status: 1,
      err: expect.stringContaining('is no certificate of an authority'),
    })
  })
})
