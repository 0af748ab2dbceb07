import { expect, test } from 'vitest'
import { interpretPatient, type ReadTable, readTable } from '../../lib/intake/index.ts'
import { bytesOf, TODAY } from './rows.ts'

const HEADER = 'patient_id,birth_date,sex'
const read = (text: string): ReadTable => readTable(bytesOf(text), 'file.csv')

function linesOf(text: string): readonly (readonly [number, string, string | null])[] {
  const table = read(text)
  if (!table.ok) throw new Error(table.sentence)
  return table.rows.map(({ line, text: received, refusal }) => [line, received, refusal?.reason ?? null] as const)
}

test.each([
  ['empty', '', 'empty-file', 'is empty'],
  ['only a byte order mark', '\ufeff', 'empty-file', 'is empty'],
  ['a NUL byte', `${HEADER}\nP\u0000`, 'nul-byte', 'byte 28'],
  ['a ZIP renamed', 'PK\u0003\u0004abc', 'not-a-text-file', 'ZIP'],
  ['an unclosed quote', `${HEADER}\nP1,1950,female\nP2,"1950,male\nP3,1950,male\n`, 'unclosed-quote', 'line 3'],
  ['text after a closing quote', `${HEADER}\n"P1"x,1950,female\n`, 'misplaced-quote', 'line 2'],
  ['a required column missing', 'patient_id,birth_date\nP1,1950\n', 'missing-column', 'no column sex'],
  ['a column twice', `${HEADER},sex\n`, 'duplicate-column', '"sex"'],
  ['an unknown column', `${HEADER},shoe_size\n`, 'unknown-column', '"shoe_size"'],
  ['a column called __proto__', `${HEADER},__proto__\n`, 'unknown-column', '"__proto__"'],
  ['a column without name', `${HEADER},\n`, 'unknown-column', 'column 4'],
  ['a header of nothing known', 'a,b,c\n1,2,3\n', 'unknown-header', 'fits none'],
  ['semicolons', 'patient_id;birth_date;sex\n', 'unknown-header', 'commas'],
  ['results without the unit column', 'patient_id,collected_at,code,value\nP1,2026-01-01,33358-3,14\n', 'missing-column', 'unit'],
])('a file is refused whole: %s', (_what, text, reason, said) => {
  const table = read(text)
  expect(table).toMatchObject({ ok: false, reason })
  expect(table.ok ? '' : table.sentence).toContain(said)
})

test.each([
  ['OLE2 spreadsheet', [0xd0, 0xcf, 0x11, 0xe0, 0xa1], 'not-a-text-file', 'spreadsheet'],
  ['gzip', [0x1f, 0x8b, 8], 'not-a-text-file', 'gzip'],
  ['Latin-1', [0x61, 0x62, 0xe9, 0x2c], 'not-utf-8', 'byte 3'],
  ['overlong', [0x61, 0xc0, 0xaf], 'not-utf-8', 'byte 2'],
  ['surrogate', [0xed, 0xa0, 0x80], 'not-utf-8', 'byte 1'],
  ['cut inside a character', [0x61, 0xc3], 'not-utf-8', 'byte 2'],
])('bytes that are no text: %s', (_what, bytes, reason, said) => {
  const table = readTable(Uint8Array.from(bytes), 'file.csv')
  expect(table).toMatchObject({ ok: false, reason })
  expect(table.ok ? '' : table.sentence).toContain(said)
})

test('more than 512 MiB is refused before anything is read', () => {
  const table = readTable({ length: 512 * 1024 * 1024 + 1 } as Uint8Array, 'file.csv')
  expect(table).toMatchObject({ ok: false, reason: 'file-too-large' })
})

test.each([
  ['patients', `${HEADER}\n`],
  ['course', 'event,on,patient_id\n'],
  ['results', 'value,unit,code,collected_at,patient_id\n'],
])('the header tells %s, in any order of columns', (kind, text) => {
  expect(read(text)).toMatchObject({ ok: true, kind, rows: [] })
})

test('byte order mark, CRLF, quotes and the last line without an end are accepted', () => {
  const rows = linesOf(`\ufeff${HEADER}\r\nP1,1950,"female"\r\n"P2",1950,male`)
  expect(rows).toEqual([
    [2, 'P1,1950,"female"', null],
    [3, '"P2",1950,male', null],
  ])
  const table = read(`${HEADER}\r\nP1,1950,female\r\nP2,1950,"male"\r\n`)
  expect(table.ok && table.rows.map(({ fields }) => fields.sex)).toEqual(['female', 'male'])
})

test('a line number is the physical line where the row begins, newlines in quotes counted', () => {
  expect(linesOf(`${HEADER}\n"P\n1",1950,female\nP2,1950,male\n`)).toEqual([
    [2, '"P\n1",1950,female', null],
    [4, 'P2,1950,male', null],
  ])
})

test('a row too long or too short is refused; an empty line is no row at the very end only', () => {
  expect(linesOf(`${HEADER}\nP1,1950\n\nP2,1950,male,x\nP3,1950,male\n\n\n`)).toEqual([
    [2, 'P1,1950', 'row-too-short'],
    [3, '', 'row-too-short'],
    [4, 'P2,1950,male,x', 'row-too-long'],
    [5, 'P3,1950,male', null],
  ])
})

test.each(["O'Brien", 'Null', '=1+1', '__proto__', 'constructor', '\u05db\u05d4\u05df', ' Ann', 'Smith, Jr', '"Bob"'])(
  'the name %s is text as received',
  (name) => {
    const table = read(`${HEADER},family_name\nP1,1950,female,"${name.replaceAll('"', '""')}"\n`)
    const row = table.ok ? table.rows[0] : undefined
    if (row === undefined) throw new Error('no row')
    expect(interpretPatient(row, null, TODAY)).toMatchObject({ outcome: 'take', value: { familyName: name } })
  },
)

test('100,000 rows are read within two seconds', () => {
  const rows = Array.from({ length: 100_000 }, (_, at) => `P${at},"2026-06-01",33358-3,14.2,g/L,final,A${at},"North ""A""",,,,`)
  const text = `patient_id,collected_at,code,value,unit,status,accession,laboratory,method,reference_low,reference_high,reported_at\n${rows.join('\n')}\n`
  const bytes = bytesOf(text)
  const began = performance.now()
  const table = readTable(bytes, 'file.csv')
  expect(performance.now() - began).toBeLessThan(2000)
  expect(table.ok && table.rows.length).toBe(100_000)
})
