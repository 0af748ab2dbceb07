import fc from 'fast-check'
import { expect, test } from 'vitest'
import { csvCells } from '../../lib/intake/csvCells.ts'
import { csvPlaces } from '../../lib/intake/csvPlaces.ts'
import { bytesInMemory, openTable } from '../../lib/intake/index.ts'
import { wholeCharacters } from '../../lib/intake/wholeCharacters.ts'
import { bytesOf } from './rows.ts'
import { splitByLibrary } from './splitByLibrary.ts'

/** The records as places and cells give them, or the refusal. */
function splitByPlaces(text: string) {
  const bytes = bytesOf(text)
  const lineEnd = text.includes('\n') ? '\n' : '\r'
  const places = csvPlaces(bytesInMemory(bytes), { ok: true, from: 0, lineEnd: lineEnd.charCodeAt(0) }, 'file.csv')
  if (!places.ok) return places
  return Array.from({ length: places.count }, (_, at) => {
    const whole = Buffer.from(bytes.subarray(places.begins[at], places.begins[at + 1])).toString('utf8')
    const bare = whole.endsWith(lineEnd) ? whole.slice(0, -1) : whole
    const record = bare.endsWith('\r') ? bare.slice(0, -1) : bare
    return { line: places.lines[at], text: record, cells: csvCells(record) }
  })
}

const pieces = fc.constantFrom(
  'a',
  ',',
  '"',
  '""',
  '\n',
  '\r\n',
  '\r',
  ' ',
  '\u00a0',
  '\u3000',
  'é',
  '\u{1f600}',
  ',"',
  '",',
  '"\n',
  '\n"',
  '"\r\n',
  '" ,',
  '',
)
const texts = fc.array(pieces, { maxLength: 24 }).map((all) => all.join(''))
// The library leaves a carriage return on a quoted last cell; where the cell itself ends with one and blanks follow its quote, the old reader took both.
const isSure = (text: string): boolean => !/\r"\s+(\r?\n|$)/.test(text)

test('records, lines, cells and faults are those a library of its own finds, whatever the text', () => {
  fc.assert(
    fc.property(texts.filter(isSure), (text) => {
      expect(splitByPlaces(text)).toEqual(splitByLibrary(text, 'file.csv'))
    }),
    { numRuns: 20_000 },
  )
})

test('rows asked for in any order are those told from first to last', () => {
  const rows = Array.from({ length: 3_000 }, (_, at) => `P${at},1950,"${at % 2 === 0 ? 'female' : 'male'}","Ann\n""é"" ${'x'.repeat(at % 300)}"`)
  const table = openTable(bytesInMemory(bytesOf(`\ufeffpatient_id,birth_date,sex,family_name\r\n${rows.join('\r\n')}\r\n\r\n`)), 'file.csv')
  if (!table.ok) throw new Error(table.sentence)
  const all = [...table.rows()]
  expect(all.map(({ text }) => text)).toEqual(rows)
  expect(table.count).toBe(3_000)
  for (const place of [2_999, 0, 1, 2, 1_500, 1_499, 1_501, 7]) expect(table.rowAt(place)).toEqual(all[place])
  expect(() => table.rowAt(3_000)).toThrow('no row at place 3000')
})

test('a stretch of UTF-8 is cut before a character its end divides', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 12 }), fc.nat(48), (text, at) => {
      const bytes = bytesOf(text)
      const cut = bytes.subarray(0, at)
      const whole = wholeCharacters(cut)
      expect(cut.length - whole).toBeLessThan(4)
      expect(() => new TextDecoder('utf-8', { fatal: true }).decode(cut.subarray(0, whole))).not.toThrow()
    }),
  )
})
