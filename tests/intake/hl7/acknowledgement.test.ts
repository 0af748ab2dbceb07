import { Hl7Context } from '@medplum/core'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { escaped } from '../../../lib/intake/hl7/escaped.ts'
import { decoded } from '../../../lib/intake/hl7/escapes.ts'
import {
  type Answer,
  acknowledgement,
  FILE_REASONS,
  type RawRow,
  readNetworkMessage,
  readTable,
  wantsAcknowledgement,
} from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { fileOf, msh, obr, obx, pid } from './messages.ts'

const HEADER = { 3: 'LAB^1.2.3^ISO', 4: 'NORTH', 5: 'WARD', 6: 'CLINIC' }
const OWN = { controlId: 'LM1', at: '2026-11-25T10:00:00.123Z' }
const ACCEPTED: Answer = { code: 'AA', says: '1 rows', reason: null }
const messageOf = (header: string, ...segments: readonly string[]) => readNetworkMessage(bytesOf(fileOf(header, ...segments)))
const whole = (header: string) => messageOf(header, pid(), obr(), obx())

/** The acknowledgement of a message, its segments. Throws where nobody can be answered. */
function acknowledged(header: string, answer: Answer = ACCEPTED): string[] {
  const read = whole(header)
  if (read.header === null) throw new Error('the header cannot be read')
  const text = acknowledgement(read.header, answer, OWN)
  expect(text.endsWith('\r')).toBe(true)
  return text.slice(0, -1).split('\r')
}

test('accepted: ACK^R01^ACK from the receiver to the sender, with the control id as received', () => {
  expect(acknowledged(msh(HEADER))).toEqual([
    'MSH|^~\\&|WARD|CLINIC|LAB^1.2.3^ISO|NORTH|20261125100000.123+0000||ACK^R01^ACK|LM1|P|2.5.1',
    'MSA|AA|M1|1 rows',
  ])
})

test('a sender that names no receiver is answered by LOWMARK, one that names no event with ACK', () => {
  expect(acknowledged(msh({ 9: 'ORU' }))[0]).toBe('MSH|^~\\&|LOWMARK|||NORTH|20261125100000.123+0000||ACK|LM1|P|2.5.1')
})

test("the sender's own separators are kept, and its escapes come back as they came", () => {
  const own = 'MSH#*!/?#LAB*1#NORTH#WARD/T/X##20260601##ORU*R01#M/F/1#P#2.5.1'
  const segments = acknowledged(own, { code: 'AR', reason: 'hl7-version', says: 'a#b*c!d/e?f|^' })
  expect(segments).toEqual([
    'MSH#*!/?#WARD/T/X##LAB*1#NORTH#20261125100000.123+0000##ACK*R01*ACK#LM1#P#2.5.1',
    'MSA#AR#M/F/1#a/F/b/S/c/R/d/E/e/T/f|^',
    'ERR##MSH*1*12#203*Unsupported version id*HL70357#E#hl7-version**L###a/F/b/S/c/R/d/E/e/T/f|^',
  ])
})

test('a reason longer than the fields is cut, and other characters are named in MSH-18', () => {
  const long = `é${'x'.repeat(300)}`
  const [head, said, error] = acknowledged(msh(), { code: 'AE', reason: 'not-kept', says: long })
  expect(head?.split('|')[17]).toBe('UNICODE UTF-8')
  expect([...(said?.split('|')[3] ?? '')]).toHaveLength(80)
  expect([...(error?.split('|')[8] ?? '')]).toHaveLength(250)
  expect(error).toContain('|207^Application internal error^HL70357|E|not-kept^^L|')
})

test('an escaped text is read back, whatever the separators', () => {
  const context = new Hl7Context('\r', '#', '*', '!', '/', '?')
  fc.assert(
    fc.property(fc.string({ unit: fc.constantFrom('a', '#', '*', '!', '/', '?', '|', '\\', '\r', '\n', 'é', 'F') }), (said) => {
      expect(decoded(escaped(said, context), context)).toEqual({ text: said, isKnown: true })
      expect(escaped(said, context)).not.toMatch(/[#*!?\r\n]/)
    }),
  )
})

test.each([
  ['another type', { 9: 'ADT^A08^ADT_A01' }, 'hl7-no-results', '200', 'ACK^A08^ACK'],
  ['another event', { 9: 'ORU^R30' }, 'hl7-no-results', '201', 'ACK^R30^ACK'],
  ['training', { 11: 'T' }, 'hl7-processing', '202', 'ACK^R01^ACK'],
  ['an unknown processing id', { 11: 'Q' }, 'hl7-processing', '202', 'ACK^R01^ACK'],
  ['an older version', { 12: '2.1' }, 'hl7-version', '203', 'ACK^R01^ACK'],
  ['a version of another kind', { 12: '3.0' }, 'hl7-version', '203', 'ACK^R01^ACK'],
  ['no version', { 12: '', 13: 'x' }, 'hl7-version', '203', 'ACK^R01^ACK'],
  ['no control id', { 10: '' }, 'hl7-control-id', '101', 'ACK^R01^ACK'],
  ['a control id that is none', { 10: '""' }, 'hl7-control-id', '101', 'ACK^R01^ACK'],
  ['a control id without end', { 10: 'x'.repeat(200) }, 'hl7-control-id', '101', 'ACK^R01^ACK'],
  ['other characters', { 18: '8859/1' }, 'hl7-character-set', '103', 'ACK^R01^ACK'],
])('refused by its header, and answered: %s', (_what, changes, reason, code, type) => {
  const read = whole(msh(changes))
  expect(read.table).toMatchObject({ ok: false, reason, sentence: expect.stringMatching(/^The message .+\.$/) })
  const [head, said, error] = acknowledged(msh(changes), { code: 'AR', reason: reason as (typeof FILE_REASONS)[number], says: 'why' })
  expect(head).toContain(`|${type}|`)
  expect(said).toBe(`MSA|AR|${changes[10 as keyof typeof changes] ?? 'M1'}|why`)
  expect(error?.split('|')[3]?.split('^')[0]).toBe(code)
})

test.each([
  ['cut in its header', fileOf('MSH|^~\\&|LAB|NORTH'), 'hl7-truncated'],
  ['cut in a segment', fileOf(msh(), pid(), obr(), 'OBX|1|NM|33358-3^^LN'), 'hl7-truncated'],
  ['an OBX without OBR', fileOf(msh(), pid(), obx()), 'hl7-structure'],
  ['two in one frame', fileOf(msh(), pid(), obr(), obx(), msh({ 10: 'M2' }), pid(), obr(), obx()), 'hl7-structure'],
  ['a NUL byte behind the header', fileOf(msh(), pid(), obr(), obx({ 5: '1\0' })), 'nul-byte'],
])('refused by its body, and answered: %s', (_what, text, reason) => {
  const read = readNetworkMessage(bytesOf(text))
  expect(read.header).not.toBe(null)
  expect(read.table).toMatchObject({ ok: false, reason })
})

/** The rows of a message that is read. */
function rowsOf(bytes: Uint8Array): RawRow[] {
  const { table } = readNetworkMessage(bytes)
  if (!table.ok) throw new Error(table.sentence)
  return [...table.rows()]
}

test.each([
  ['CR', fileOf(msh(), pid(), obr(), obx())],
  ['LF', fileOf(msh(), pid(), obr(), obx()).replaceAll('\r', '\n')],
  ['CRLF', fileOf(msh(), pid(), obr(), obx()).replaceAll('\r', '\r\n')],
  ['none behind the last segment: the frame ends it', fileOf(msh(), pid(), obr(), obx()).slice(0, -1)],
])('line ends: %s', (_what, text) => {
  expect(rowsOf(bytesOf(text))).toMatchObject([{ line: 4, fields: { value: '14.2', status: 'final' } }])
})

test('a message from the network has the rows of a file of the same bytes', () => {
  const segments = [pid(), obr(), obx(), obx({ 11: 'R' }), obx({ 2: 'ST', 5: 'a\\H\\' }), pid({ 3: 'P2' }), obr({ 3: 'A2' }), obx({ 5: '7~8' })]
  const bytes = bytesOf(fileOf(msh(), 'PV1|1|O', ...segments, 'ZZ1|x'))
  expect(readTable(bytes, 'lab.hl7')).toEqual({ ok: true, kind: 'results', rows: rowsOf(bytes) })
})

test('bytes that are no UTF-8 behind a header that says nothing else: refused, the byte named', () => {
  const bytes = bytesOf(fileOf(msh(), pid(), obr(), obx({ 5: 'x' })))
  bytes[bytes.length - 12] = 0xe9
  const read = readNetworkMessage(bytes)
  expect([read.header?.name, read.table]).toMatchObject(['MSH', { ok: false, reason: 'not-utf-8' }])
})

test.each([
  ['nothing', '', 'hl7-no-header'],
  ['blanks', '\r\r', 'hl7-no-header'],
  ['a batch', fileOf('BHS|^~\\&', msh(), pid(), obr(), obx(), 'BTS|1'), 'hl7-no-header'],
  ['blank lines first', `\r${fileOf(msh(), pid(), obr(), obx())}`, 'hl7-no-header'],
  ['separators that are none', fileOf('MSH|^^^^|LAB', pid()), 'hl7-no-header'],
  ['a CSV file', 'patient_id,collected_at\n', 'hl7-no-header'],
  ['a NUL byte in the header', fileOf(msh({ 4: 'N\0' }), pid(), obr(), obx()), 'nul-byte'],
])('a header that cannot be read: nobody is answered: %s', (_what, text, reason) => {
  expect(readNetworkMessage(bytesOf(text))).toMatchObject({ header: null, key: null, table: { ok: false, reason } })
})

test('what tells messages apart does not hang on their separators, and no patient is in the name', () => {
  const usual = whole(msh(HEADER))
  const own = readNetworkMessage(bytesOf(fileOf('MSH#*!/?#LAB*1.2.3*ISO#NORTH#WARD#CLINIC#20260601##ORU*R01#M1#P#2.5.1', 'PID#1##P1')))
  expect(own.key).toEqual(usual.key)
  expect(usual.key).toEqual({ application: 'LAB^1.2.3^ISO', facility: 'NORTH', controlId: 'M1' })
  expect(usual.name).toBe('HL7 message "M1" of "LAB^1.2.3^ISO", "NORTH"')
})

test.each([
  ['', '', 'AA', true],
  ['', '', 'AR', true],
  ['NE', 'NE', 'AE', false],
  ['AL', 'NE', 'AA', true],
  ['NE', 'ER', 'AA', false],
  ['NE', 'ER', 'AE', true],
  ['', 'SU', 'AA', true],
  ['', 'SU', 'AR', false],
  ['', 'AL', 'AR', true],
  ['', 'whatever', 'AA', true],
] as const)('MSH-15 %j, MSH-16 %j: %s is written: %s', (accept, application, code, isWritten) => {
  const { header } = whole(msh({ 15: accept, 16: application }))
  if (header === null) throw new Error('the header cannot be read')
  expect(wantsAcknowledgement(header, code)).toBe(isWritten)
})

test('no text of a message whose header can be read stops the reading', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 200 }), (tail) => {
      const read = readNetworkMessage(Uint8Array.from([...bytesOf(`${msh()}\r`), ...tail]))
      expect(read.header).not.toBe(null)
      if (!read.table.ok) expect(FILE_REASONS).toContain(read.table.reason)
    }),
    { numRuns: 500 },
  )
})
