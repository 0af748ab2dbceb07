import fc from 'fast-check'
import Papa from 'papaparse'
import { expect, test } from 'vitest'
import { csvText, withoutFormula } from '../../../lib/usecases/export/csvText.ts'

// OWASP, "CSV Injection", https://owasp.org/www-community/attacks/CSV_Injection: cells that begin with = + - @, tab, carriage return, line feed, with
// the full-width forms of the four signs, and separators that begin a new cell inside what was typed.
test.each([
  ['=1+1', "'=1+1"],
  ['=HYPERLINK("http://x","y")', '\'=HYPERLINK("http://x","y")'],
  ["=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"],
  ['+1+cmd', "'+1+cmd"],
  ['-2+3', "'-2+3"],
  ['@SUM(A1)', "'@SUM(A1)"],
  ['\t=1', "'\t'=1"],
  ['\r=1', "'\r'=1"],
  ['\ttext', "'\ttext"],
  ['\nword', "'\nword"],
  ['\uff1d1+1', "'\uff1d1+1"],
  ['\uff0b1', "'\uff0b1"],
  ['\uff0d1', "'\uff0d1"],
  ['\uff20SUM(A1)', "'\uff20SUM(A1)"],
  ['a;=1+1;b', "a;'=1+1;b"],
  ['a\n=1+1', "a\n'=1+1"],
])('%j is made text, as the source asks', (text, safe) => {
  expect(withoutFormula(text)).toBe(safe)
})

// What spreadsheets pass over before they look (common practice), and what runs nothing (ours).
test.each([
  ['  =1+1', "'  =1+1"],
  ['\u00a0=1+1', "'\u00a0=1+1"],
  ['\u200b=1+1', "'\u200b=1+1"],
  ['\ufeff@x', "'\ufeff@x"],
  ['"=1+1', '\'"=1+1'],
  ['=1\nsecond line', "'=1\nsecond line"],
  ['-1.2', '-1.2'],
  ['+7', '+7'],
  ['-', "'-"],
  ['-1.2 g/L', "'-1.2 g/L"],
  ["O'Brien", "O'Brien"],
  ['Smith-Jones', 'Smith-Jones'],
  ['a = b', 'a = b'],
  ['', ''],
])('%j becomes %j', (text, safe) => {
  expect(withoutFormula(text)).toBe(safe)
})

test("the library's own escape would let these run, and spoil a number", () => {
  const escapes = { escapeFormulae: true, quotes: true }
  for (const text of [' =1+1', '=1+1\nsecond line', '\uff1d1+1', 'a;=1+1']) expect(Papa.unparse([[text]], escapes)).toBe(`"${text}"`)
  expect(Papa.unparse([['-1.2']], escapes)).toBe('"\'-1.2"')
})

test('RFC 4180: CRLF, quotes doubled, every record as long as the longest, the mark of UTF-8', () => {
  expect(csvText([['caution'], [], ['a "b"', 'c,d', 1], ['\u05db\u05d4\u05df', null, -1.5]])).toBe(
    '\ufeff"caution","",""\r\n"","",""\r\n"a ""b""","c,d","1"\r\n"\u05db\u05d4\u05df","","-1.5"\r\n',
  )
  expect(csvText([])).toBe('\ufeff')
})

const nasty = fc.string({
  unit: fc.constantFrom('=', '+', '-', '@', '\uff1d', ' ', '\t', '\r', '\n', ';', ',', '"', "'", '1', '.', 'a', '|', '!', '\u00a0'),
  maxLength: 12,
})

test('whatever is typed, no cell can run at a comma, semicolon, tab or line end, and nothing but apostrophes is added', () => {
  fc.assert(
    fc.property(fc.array(fc.array(nasty, { minLength: 1, maxLength: 3 }), { minLength: 1, maxLength: 4 }), (records) => {
      const text = csvText(records)
      const read = Papa.parse<string[]>(text.slice(1), { delimiter: ',', newline: '\r\n', skipEmptyLines: false }).data.slice(0, -1)
      expect(read).toHaveLength(records.length)
      for (const [at, record] of records.entries()) {
        for (const [column, typed] of record.entries()) {
          const cell = read[at]?.[column] ?? 'missing'
          expect(cell.replaceAll("'", '')).toBe(typed.replaceAll("'", ''))
          for (const piece of cell.split(/[;\t\r\n]/)) {
            const begins = piece.replace(/^[\s"]+/, '').charAt(0)
            if (['=', '@', '\uff1d'].includes(begins)) throw new Error(`${JSON.stringify(piece)} would run`)
            if (['+', '-'].includes(begins)) expect(piece).toMatch(/^[+-]\d+(\.\d+)?$/)
          }
        }
      }
    }),
    { numRuns: 2000 },
  )
})
