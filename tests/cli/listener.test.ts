import { setTimeout as pause } from 'node:timers/promises'
import { afterEach, expect, test } from 'vitest'
import { LISTEN_LIMITS } from '../../lib/cli/listen/limits.ts'
import { type Listener, type ListenWork, startListener } from '../../lib/cli/listen/listener.ts'
import { framed } from '../../lib/intake/index.ts'
import { sender } from './sender.ts'

const PLACE = { host: '127.0.0.1', port: 0, secure: null }
const bytes = (text: string) => new TextEncoder().encode(text)
const text = (message: Uint8Array) => new TextDecoder().decode(message)

/** A listener that answers each message with its own text, and what it saw. */
interface Echo {
  readonly port: number
  readonly listener: Listener
  /** Why connections were closed. */
  readonly closed: string[]
  /** Messages in hand, now and at most at once. */
  readonly inHand: { now: number; most: number }
}

const open: Listener[] = []
afterEach(async () => {
  for (const listener of open.splice(0)) await listener.stop()
})

/** Starts one. A message `wait...` is in hand for 250 ms, `unreadable` has no header, `broken` ends in an error, `large` is answered at length. */
async function echo(limits: Partial<typeof LISTEN_LIMITS> = {}): Promise<Echo> {
  const closed: string[] = []
  const inHand = { now: 0, most: 0 }
  const accept: ListenWork['accept'] = async (message) => {
    const said = text(message)
    inHand.now += 1
    inHand.most = Math.max(inHand.most, inHand.now)
    if (said.startsWith('wait')) await pause(250)
    inHand.now -= 1
    if (said === 'broken') throw new Error('this cannot be taken')
    if (said === 'unreadable') return { acknowledgement: null, isUnreadable: true, notAccepted: 'hl7-no-header' }
    return { acknowledgement: framed(said === 'large' ? 'x'.repeat(40_000_000) : said), isUnreadable: false, notAccepted: null }
  }
  const listener = await startListener(PLACE, { accept, closed: async (why) => void closed.push(why) }, { ...LISTEN_LIMITS, ...limits })
  open.push(listener)
  return { port: Number(listener.at.split(':').at(-1)), listener, closed, inHand }
}

const framesOf = (...texts: readonly string[]) => Buffer.concat(texts.map(framed))

/** Waits until something has come about. */
async function until(holds: () => boolean): Promise<void> {
  while (!holds()) await pause(5)
}

test('several messages in one packet are answered in order, one at a time', async () => {
  const { port, inHand, closed } = await echo()
  const lab = sender(port)
  const texts = ['wait 1', '2', 'wait 3', '4', '5']
  lab.write(framesOf(...texts))
  const answers: (string | null)[] = []
  for (const _ of texts) answers.push(await lab.next())
  expect([answers, inHand.most, closed]).toEqual([texts, 1, []])
  lab.close()
})

test('one message over many packets, with pauses, is one message', async () => {
  const { port } = await echo()
  const lab = sender(port)
  for (const piece of ['\x0bMSH', '|', '^~\\&|', 'LAB\r', '\x1c']) {
    lab.write(piece)
    await pause(15)
  }
  lab.write('\r')
  expect(await lab.next()).toBe('MSH|^~\\&|LAB\r')
  lab.close()
})

test('several senders are served at once, also while one keeps its acknowledgement on the network', async () => {
  const { port, inHand } = await echo()
  const slow = sender(port)
  slow.socket.pause()
  slow.write(framesOf('large', 'behind it'))
  const labs = Array.from({ length: 5 }, () => sender(port))
  expect(await Promise.all(labs.map((lab, at) => lab.send(`wait ${at}`)))).toEqual(labs.map((_, at) => `wait ${at}`))
  expect(inHand.most).toBeGreaterThan(2)
  slow.socket.resume()
  for (const lab of [slow, ...labs]) lab.close()
})

test.each([
  ['text without a frame', 'MSH|^~\\&|', 'outside-frame'],
  ['a frame in a frame', '\x0bMSH\x0bMSH', 'frame-in-frame'],
  ['FS without CR', '\x0bMSH\x1c\x0b', 'frame-end'],
  ['too large', `\x0b${'x'.repeat(101)}`, 'frame-too-large'],
  ['TLS where none is spoken', Uint8Array.from([0x16, 0x03, 0x01, 0x00, 0x05]), 'outside-frame'],
])('a framing error ends the connection without an acknowledgement, what was whole before it is answered: %s', async (_what, garbage, reason) => {
  const { port, closed } = await echo({ messageBytes: 100 })
  const lab = sender(port)
  lab.write(Buffer.concat([framed('good'), typeof garbage === 'string' ? bytes(garbage) : garbage, framed('never read')]))
  expect(await lab.ended).toEqual(['good'])
  await until(() => closed.length > 0)
  expect(closed).toEqual([reason])
})

test('a message over the limit is closed while it is still being sent', async () => {
  const { port, closed } = await echo()
  const lab = sender(port)
  lab.write('\x0b')
  let sent = 0
  const going = setInterval(() => {
    if (lab.socket.writable) sent += lab.socket.write(Buffer.alloc(65_536, 'x')) ? 65_536 : 0
  }, 1)
  expect(await lab.ended).toEqual([])
  clearInterval(going)
  await until(() => closed.length > 0)
  expect([closed, sent < 30 * 1024 * 1024]).toEqual([['frame-too-large'], true])
})

test('a message that does not end in time, and a connection without messages, are closed', async () => {
  const { port, closed } = await echo({ messageMs: 150, idleMs: 1_500 })
  const [slow, idle] = [sender(port), sender(port)]
  // Bytes that keep coming do not lengthen the time.
  const dripping = setInterval(() => slow.socket.writable && slow.write('x'), 20)
  slow.write('\x0b')
  expect(await idle.send('one')).toBe('one')
  expect(await Promise.all([slow.ended, idle.ended])).toEqual([[], []])
  clearInterval(dripping)
  await until(() => closed.length > 1)
  expect(closed).toEqual(['frame-too-slow', 'idle'])
})

test('a sender that goes away inside a message is told apart from one that ends between two', async () => {
  const { port, closed } = await echo()
  const [cut, clean] = [sender(port), sender(port)]
  expect(await clean.send('one')).toBe('one')
  clean.socket.end()
  expect(await clean.ended).toEqual([])
  cut.write('\x0bMSH')
  cut.socket.end()
  await cut.ended
  await until(() => closed.length > 0)
  expect(closed).toEqual(['frame-cut-off'])
})

test('a sender that closes its side after its message is acknowledged all the same', async () => {
  const { port, closed } = await echo()
  const lab = sender(port)
  lab.socket.end(framed('wait for me'))
  expect([await lab.ended, closed]).toEqual([['wait for me'], []])
})

test('an acknowledgement that is not taken from the network in time ends the connection', async () => {
  const { port, closed } = await echo({ acknowledgementMs: 150 })
  const lab = sender(port)
  lab.socket.pause()
  lab.write(framed('large'))
  await until(() => closed.length > 0)
  expect(closed).toEqual(['acknowledgement-not-read'])
  lab.close()
})

test('one connection more than allowed is closed as it comes, the others go on', async () => {
  const { port, closed } = await echo({ connections: 2 })
  const labs = [sender(port), sender(port)]
  await Promise.all(labs.map((lab) => lab.send('here')))
  const third = sender(port)
  expect(await third.ended).toEqual([])
  await until(() => closed.length > 0)
  expect(closed).toEqual(['too-many-connections'])
  expect(await Promise.all(labs.map((lab) => lab.send('still here')))).toEqual(['still here', 'still here'])
  for (const lab of labs) lab.close()
})

test('a header that cannot be read, and an error, end their connection alone', async () => {
  const { port, closed } = await echo()
  const other = sender(port)
  await other.send('first')
  const [unreadable, broken] = [sender(port), sender(port)]
  expect([await unreadable.send('unreadable'), await broken.send('broken')]).toEqual([null, null])
  await until(() => closed.length > 0)
  expect([closed, await other.send('second')]).toEqual([['header-unreadable'], 'second'])
  other.close()
})

test('a stop lets the message in hand be acknowledged, takes none behind it, and ends at once what is idle', async () => {
  const { port, listener, inHand, closed } = await echo()
  const [busy, idle, half] = [sender(port), sender(port), sender(port)]
  await idle.send('one')
  half.write('\x0bhalf a mess')
  busy.write(framesOf('wait 1', 'wait 2'))
  await until(() => inHand.now === 1)
  await listener.stop()
  expect(await Promise.all([busy.ended, idle.ended, half.ended])).toEqual([['wait 1'], [], []])
  expect([closed, await sender(port).ended]).toEqual([[], []])
})

test('a thousand messages on one connection leave no listener behind', async () => {
  const { port } = await echo()
  const lab = sender(port)
  for (let n = 0; n < 1_000; n++) expect(await lab.send(String(n))).toBe(String(n))
  lab.close()
})
