import fc from 'fast-check'
import { expect, test } from 'vitest'
import { framed, frameReader } from '../../../lib/intake/index.ts'

const bytes = (text: string) => new TextEncoder().encode(text)
const text = (message: Uint8Array) => new TextDecoder().decode(message)
const MOST = 40

/** What a reader makes of pieces: its messages, its fault, and whether it waits for the end of one. */
function readAll(pieces: readonly Uint8Array[], most = MOST) {
  const reader = frameReader(most)
  const read = pieces.map((piece) => reader.read(piece))
  return {
    messages: read.flatMap(({ messages }) => messages.map((message) => [...message])),
    fault: read.at(-1)?.fault ?? null,
    isInside: reader.isInside(),
  }
}

/** Bytes cut into pieces at these places. */
function cutAt(whole: Uint8Array, places: readonly number[]): Uint8Array[] {
  const at = [0, ...places.map((place) => place % (whole.length + 1)).toSorted((a, b) => a - b), whole.length]
  return at.slice(1).map((end, index) => whole.slice(at[index], end))
}

// Mostly the bytes that mean something, so that frames, half frames and faults all come up often.
const byte = fc.oneof(
  { weight: 4, arbitrary: fc.constantFrom(0x0b, 0x1c, 0x0d, 0x0a) },
  { weight: 6, arbitrary: fc.integer({ min: 0x20, max: 0xff }) },
)
const content = fc.uint8Array({ maxLength: MOST }).map((message) => message.filter((value) => value !== 0x0b && value !== 0x1c))
const frame = content.map((message) => [0x0b, ...message, 0x1c, 0x0d])
const tooLarge = fc.integer({ min: 1, max: 9 }).map((more) => [0x0b, ...Array<number>(MOST + more).fill(0x41), 0x1c, 0x0d])
const parts = fc.oneof(
  { weight: 10, arbitrary: frame },
  { weight: 2, arbitrary: fc.array(byte, { maxLength: 6 }) },
  { weight: 1, arbitrary: tooLarge },
)
const stream = fc.array(parts, { maxLength: 8 }).map((all) => Uint8Array.from(all.flat()))
const places = fc.array(fc.nat(10_000), { maxLength: 60 })

test('however the bytes are cut into packets, the messages and the fault are the same', () => {
  const seen = { faults: new Set<string | null>(), inside: 0, messages: 0 }
  fc.assert(
    fc.property(stream, places, (whole, cuts) => {
      const inOne = readAll([whole])
      expect(readAll(cutAt(whole, cuts))).toEqual(inOne)
      expect(readAll([...whole].map((value) => Uint8Array.from([value]))).messages).toEqual(inOne.messages)
      seen.faults.add(inOne.fault)
      seen.inside += inOne.isInside ? 1 : 0
      seen.messages += inOne.messages.length
    }),
    { numRuns: 2_000 },
  )
  expect(seen.faults).toEqual(new Set([null, 'outside-frame', 'frame-in-frame', 'frame-end', 'frame-too-large']))
  expect(Math.min(seen.inside, seen.messages)).toBeGreaterThan(100)
})

test('frames with blank line ends between them give exactly what was framed', () => {
  const blank = fc.constantFrom('', '\r', '\n', '\r\n\r\n')
  fc.assert(
    fc.property(fc.array(fc.tuple(content, blank), { maxLength: 10 }), places, (told, cuts) => {
      const whole = Uint8Array.from(told.flatMap(([message, after]) => [0x0b, ...message, 0x1c, 0x0d, ...bytes(after)]))
      const read = readAll(cutAt(whole, cuts))
      expect(read).toEqual({ messages: told.map(([message]) => [...message]), fault: null, isInside: false })
    }),
  )
})

test('a byte that is no part of a frame ends the reading: nothing behind it is a message', () => {
  const stray = fc.integer({ min: 0, max: 255 }).filter((value) => ![0x0b, 0x0d, 0x0a].includes(value))
  fc.assert(
    fc.property(fc.array(frame, { maxLength: 4 }), stray, fc.array(frame, { maxLength: 4 }), places, (before, garbage, after, cuts) => {
      const whole = Uint8Array.from([...before.flat(), garbage, ...after.flat()])
      const read = readAll(cutAt(whole, cuts))
      expect([read.messages.length, read.fault]).toEqual([before.length, 'outside-frame'])
    }),
  )
})

test.each([
  ['text without a frame', 'MSH|', 'outside-frame', 0],
  ['a message behind another without VT', '\x0ba\x1c\rb\x1c\r', 'outside-frame', 1],
  ['FS alone', '\x1c\r', 'outside-frame', 0],
  ['VT inside a frame', '\x0ba\x0bb\x1c\r', 'frame-in-frame', 0],
  ['FS without CR', '\x0ba\x1c\x0bb\x1c\r', 'frame-end', 0],
  ['LF in place of CR', '\x0ba\x1c\n', 'frame-end', 0],
  ['FS twice', '\x0ba\x1c\x1c\r', 'frame-end', 0],
  ['one byte too many', `\x0b${'x'.repeat(MOST + 1)}\x1c\r`, 'frame-too-large', 0],
  ['the limit itself', `\x0b${'x'.repeat(MOST)}\x1c\r`, null, 1],
  ['an empty frame', '\x0b\x1c\r', null, 1],
])('%s', (_what, received, fault, count) => {
  const read = readAll([bytes(received)])
  expect([read.fault, read.messages.length]).toEqual([fault, count])
})

test('a message over the limit is told at its first byte too many, before its end has come', () => {
  const reader = frameReader(MOST)
  expect(reader.read(bytes(`\x0b${'x'.repeat(MOST)}`))).toEqual({ messages: [], fault: null })
  expect(reader.read(bytes('x')).fault).toBe('frame-too-large')
  expect(reader.read(bytes('\x1c\r\x0bb\x1c\r'))).toEqual({ messages: [], fault: 'frame-too-large' })
})

test('a message of a mebibyte in packets of one byte each is read in linear time', () => {
  const message = new Uint8Array(1024 * 1024).fill(0x41)
  const reader = frameReader()
  const began = performance.now()
  reader.read(Uint8Array.from([0x0b]))
  for (const value of message) reader.read(Uint8Array.from([value]))
  const { messages } = reader.read(Uint8Array.from([0x1c, 0x0d]))
  expect(performance.now() - began).toBeLessThan(5_000)
  expect([messages.length, Buffer.compare(messages[0] ?? new Uint8Array(), message)]).toEqual([1, 0])
})

test('what is framed is read back', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme', maxLength: 60 }), (said) => {
      fc.pre(!said.includes('\x0b') && !said.includes('\x1c'))
      const { messages } = frameReader().read(framed(said))
      expect(messages.map(text)).toEqual([said])
    }),
  )
})
