import { expect, test } from 'vitest'
import { readTable } from '../../../lib/intake/index.ts'
import { bytesOf } from '../rows.ts'
import { fateOf, fileOf, msh, obr, obx, orderOf, pid, readOf, rowsOf } from './messages.ts'

const GOOD = orderOf(obx())
const SECOND = fileOf(msh({ 10: 'M2' }), pid({ 3: 'P2^^^CLINIC^MR' }), obr({ 3: 'A2' }), obx())
const refusal = (text: string) => {
  const table = readTable(bytesOf(text), 'lab.hl7')
  return table.ok ? { reason: 'read', sentence: '' } : table
}

test.each([
  ['no line end behind the last segment', GOOD.slice(0, -1), 'hl7-truncated', 'OBX on line 4, has no line end'],
  [
    'an OBX cut inside',
    fileOf(msh(), pid(), obr(), 'OBX|1|NM|33358-3^^LN||14.2|g/L'),
    'hl7-truncated',
    'OBX on line 4 of message 1 (control id "M1"',
  ],
  ['the second message cut', GOOD + fileOf(msh({ 10: 'M2' }), 'PID|1'), 'hl7-truncated', 'message 2 (control id "M2", MSH on line 5)'],
  ['a message cut inside, the next one behind it', GOOD.slice(0, -1) + SECOND, 'hl7-truncated', 'begins inside OBX on line 4'],
  ['a header cut', 'MSH|^~\\&|LAB\r', 'hl7-truncated', 'MSH on line 1'],
  ['a header of its name alone', 'MSH\r', 'hl7-separators', 'MSH on line 1'],
  ['separators missing', fileOf(msh({ 2: '^~\\' }), pid(), obr(), obx()), 'hl7-separators', 'all different'],
  ['a separator twice', fileOf(msh({ 2: '^~\\^' }), pid(), obr(), obx()), 'hl7-separators', 'all different'],
  ['a letter as separator', fileOf(msh({ 2: '^~\\a' }), pid(), obr(), obx()), 'hl7-separators', 'all different'],
  ['no MSH behind the batch header', fileOf('FHS|^~\\&', pid(), obr(), obx()), 'hl7-structure', 'PID on line 2 outside any message; MSH is missing'],
  ['segments behind a batch', fileOf('BHS|^~\\&') + GOOD + fileOf('BTS|1', pid()), 'hl7-structure', 'PID on line 7 outside'],
  ['a line break inside a text', fileOf(msh(), pid(), obr(), 'OBX|1|TX|25700-6^^LN||IgG', 'kappa||||||F'), 'hl7-structure', 'line 5, "kappa'],
  ['an OBX without PID', fileOf(msh(), obr(), obx()), 'hl7-structure', 'OBX on line 3 of message 1'],
  ['an OBX without OBR', fileOf(msh(), pid(), obx()), 'hl7-structure', 'without OBR'],
  ['an OBX of the second patient without OBR', GOOD + fileOf(pid(), obx()), 'hl7-structure', 'OBX on line 6'],
  ['a message in pieces', fileOf(msh(), pid(), obr(), obx(), 'DSC|X1'), 'hl7-structure', 'in pieces'],
  ['a message that continues another', fileOf(msh({ 14: 'X1' }), pid(), obr(), obx()), 'hl7-structure', 'in pieces'],
  ['another character set', fileOf(msh({ 18: '8859/1' }), pid(), obr(), obx()), 'hl7-character-set', '"8859/1"'],
  ['a further character set', fileOf(msh({ 18: 'ASCII~8859/15' }), pid(), obr(), obx()), 'hl7-character-set', 'MSH-18'],
  ['another message alone', fileOf(msh({ 9: 'ADT^A01' }), pid()), 'hl7-no-results', '"ADT^A01"'],
  ['a batch of nothing', fileOf('FHS|^~\\&', 'BHS|^~\\&', 'BTS|0', 'FTS|1'), 'hl7-no-results', 'no message'],
  [
    'a batch with a message less',
    `${fileOf('BHS|^~\\&')}${GOOD}${fileOf('BTS|2')}`,
    'hl7-count',
    '1 messages in a batch where BTS on line 6 says "2"',
  ],
  ['a count that is none', `${fileOf('BHS|^~\\&')}${GOOD}${fileOf('BTS|one')}`, 'hl7-count', '"one"'],
  ['a file with a batch less', `${fileOf('FHS|^~\\&', 'BHS|^~\\&')}${GOOD}${fileOf('BTS|1', 'FTS|2')}`, 'hl7-count', 'FTS on line 8'],
  ['a batch never closed', `${fileOf('FHS|^~\\&', 'BHS|^~\\&')}${GOOD}${fileOf('FTS|1')}`, 'hl7-truncated', 'BHS on line 2 has no trailer'],
  ['a file never closed', `${fileOf('FHS|^~\\&')}${GOOD}`, 'hl7-truncated', 'FHS on line 1 has no trailer'],
  ['a trailer without its header', GOOD + fileOf('BTS|1'), 'hl7-structure', 'BTS on line 5'],
  ['a file trailer without its header', GOOD + fileOf('FTS|1'), 'hl7-structure', 'FTS on line 5'],
  ['a NUL byte', GOOD.replace('14.2', '14\u0000'), 'nul-byte', 'NUL'],
  ['framing of a network protocol', `\u000b${GOOD}\u001c\r`, 'hl7-structure', 'line 1, '],
])('a file is refused whole: %s', (_what, text, reason, said) => {
  expect(refusal(text).reason).toBe(reason)
  expect(refusal(text).sentence).toContain(said)
  expect(refusal(text).sentence).toMatch(/^lab\.hl7 .+\.$/)
})

test('not UTF-8: the byte is said', () => {
  const bytes = bytesOf(GOOD)
  bytes[GOOD.indexOf('NORTH')] = 0xe9
  expect(readTable(bytes, 'lab.hl7')).toMatchObject({ ok: false, reason: 'not-utf-8', sentence: expect.stringContaining('byte 11 begins') })
})

test.each([
  ['CR', GOOD],
  ['LF', GOOD.replaceAll('\r', '\n')],
  ['CRLF', GOOD.replaceAll('\r', '\r\n')],
  ['a byte order mark and blank lines before it', `\ufeff\r\n\r\n${GOOD}`],
  ['a character set said to be UTF-8', GOOD.replace('|2.5.1', '|2.5.1||||||UNICODE UTF-8')],
  ['a truncation character among the separators', GOOD.replace('^~\\&', '^~\\&#')],
  ['segments of no interest', fileOf(msh(), 'SFT|x', pid(), 'PV1|1|O', 'ORC|RE', obr(), 'NTE|1||fasting', obx(), 'NTE|1||checked', 'ZZ1|x')],
])('accepted as what it is: %s', (_what, text) => {
  expect(fateOf(text)).toBe('take')
})

test('the line is the physical one', () => {
  expect(rowsOf(`\r\n\r\n${GOOD.replaceAll('\r', '\r\n')}${SECOND}`).map(({ line }) => line)).toEqual([6, 10])
})

test('several messages, batches with right counts, and several patients in one message', () => {
  expect(rowsOf(GOOD + SECOND).map(({ fields }) => fields.patient_id)).toEqual(['P1', 'P2'])
  const batches = `${fileOf('FHS|^~\\&', 'BHS|^~\\&')}${GOOD}${SECOND}${fileOf('BTS|2', 'BHS|^~\\&')}${SECOND}${fileOf('BTS', 'FTS|2')}`
  expect(rowsOf(batches).map(({ fields }) => fields.patient_id)).toEqual(['P1', 'P2', 'P2'])
  expect(rowsOf(`${fileOf('FHS|^~\\&')}${GOOD}${fileOf('FTS|1')}`)).toHaveLength(1)
  const two = fileOf(msh(), pid(), obr(), obx(), obx({ 3: '2465-3^^LN' }), pid({ 3: 'P2', 7: '1960', 8: 'M' }), obr({ 3: 'B1' }), obx())
  expect(rowsOf(two).map(({ fields }) => [fields.patient_id, fields.birth_date, fields.sex, fields.accession])).toEqual([
    ['P1', '1950-03-12', 'female', 'A1'],
    ['P1', '1950-03-12', 'female', 'A1'],
    ['P2', '1960', 'male', 'B1'],
  ])
})

test.each([
  ['another type', msh({ 9: 'ADT^A08', 10: 'M2' }), 'is of another type, "ADT^A08"'],
  ['training', msh({ 10: 'M2', 11: 'T' }), 'MSH-11 is T'],
  ['no OBX', msh({ 10: 'M2' }), 'has no OBX'],
])('a message that brings no results is a refused row of its own beside the others: %s', (_what, header, said) => {
  const rows = rowsOf(fileOf(header, pid(), ...(header.includes('|T|') ? [obr(), obx()] : [])) + GOOD)
  expect(rows.map(({ line, text, refusal: why }) => [line, text, why?.reason ?? null])).toEqual([
    [1, header, 'message-not-read'],
    [header.includes('|T|') ? 8 : 6, obx(), null],
  ])
  expect(rows[0]?.refusal?.sentence).toContain(said)
})

const OWN = ['MSH#*!/?##NORTH###20260601120000+0200##ORU*R01#M1#P#2.5.1', 'PID#1##P1***CLINIC*MR', 'OBR#1##A1#PEP#####', 'OBX#1#TX#25700-6**LN##']

test('own separators hold for the whole message, and the usual ones are text there', () => {
  const text = fileOf(...OWN.slice(0, 2), 'OBR#1##A1#PEP###20260601', `${OWN[3]}IgG^kappa|~\\&######F###20260601`)
  expect(rowsOf(text)[0]?.fields).toMatchObject({ code: '25700-6', value: 'IgG^kappa|~\\&', patient_id: 'P1', collected_at: '2026-06-01' })
  expect(rowsOf(GOOD + text).map(({ fields }) => fields.value)).toEqual(['14.2', 'IgG^kappa|~\\&'])
  const escaped = text.replace('IgG^kappa|~\\&', 'a/F/b/S/c/R/d/E/e/T/f')
  expect(rowsOf(escaped)[0]?.fields.value).toBe('a#b*c!d/e?f')
})

test.each([
  ['\\F\\\\S\\\\T\\\\R\\\\E\\', '|^&~\\'],
  ['\\E\\F\\E\\', '\\F\\'],
  ['a\\X0D0A\\b', 'a\r\nb'],
  ['\\XC3A9\\', '\u00e9'],
  ['one\\.br\\two', 'one\ntwo'],
])('the escape %s is %j', (received, value) => {
  expect(rowsOf(orderOf(obx({ 2: 'ST', 5: received })))[0]?.fields).toMatchObject({ value })
})

test.each(['14\\H\\2', '\\XC3\\', '\\X0\\', '\\XZZ\\', '\\.sp3\\', '14.2\\', '\\\\'])(
  'the escape in %s is unknown: kept as received, and held',
  (received) => {
    const read = readOf(orderOf(obx({ 2: 'ST', 5: received })))
    expect(read).toMatchObject({ outcome: 'held', reason: 'escape-unknown', sentence: expect.stringContaining(received) })
  },
)

test('a NUL spelt by an escape is refused', () => {
  expect(fateOf(orderOf(obx({ 2: 'ST', 5: 'a\\X00\\' })))).toBe('bad-character')
})

test('long runs of separators and escapes are read in linear time', () => {
  const long = orderOf(obx({ 2: 'ST', 5: `${'\\'.repeat(500_001)}${'^&'.repeat(250_000)}`, 7: `${'1 '.repeat(250_000)}` }))
  const began = performance.now()
  expect(fateOf(long)).toBe('escape-unknown')
  expect(performance.now() - began).toBeLessThan(2000)
})
