import type { FileCase } from './case.ts'

const VALUES = 'SELECT value_text, printed_low, printed_high, collected_at FROM result WHERE file_id > 2'
const ACCESSIONS = 'SELECT accession FROM result WHERE file_id > 2 ORDER BY id'
const GOOD = [['118', '118', '118', '2024-06-02']] as const

function one(file: string, why: string, rows: readonly (readonly unknown[])[] = GOOD, sql = VALUES): FileCase {
  return { file: `accepted/${file}`, why, rows: { filed: rows.length }, told: null, stored: { sql, rows } }
}
const value = (text: string, low: string, high: string, at = '2024-06-03') => [[text, low, high, at]]

const NAMES = [
  ['N1', "O'Brien", 'Null', '=1+1'],
  ['N2', '\u05db\u05d4\u05df', '\u0645\u0631\u064a\u0645', 'Dr \u202e Mirror'],
  ['N3', '=1+1', '=HYPERLINK("http://x")', '+1'],
  ['N6', 'Smith, Jr', 'two\nlines', null],
  ['constructor', '__proto__', 'toString', 'NaN'],
  ['toString', 'valueOf', 'Infinity', '@SUM(A1)'],
]

/** What is unusual and right, taken as what it is. */
export const ACCEPTED: readonly FileCase[] = [
  one('byte-order-mark.csv', 'a byte order mark'),
  one('crlf.csv', 'lines end with CRLF'),
  one('cr.csv', 'lines end with CR'),
  one('no-last-line-end.csv', 'the last line without its end'),
  one('mixed-quotes.csv', 'every field in quotes, one with quotes in it', [['a "quoted" G1']], ACCESSIONS),
  one('below.csv', 'below what is measured', value('<0.1', '0', '0.1')),
  one('minus-zero.csv', '-0 is 0, and not below it', value('-0', '0', '0')),
  one('exponent.csv', '1.35e1 is 13.5', value('1.35e1', '13.5', '13.5')),
  one('blanks-around.csv', 'blanks around a field do not count', value(' 13.50 ', '13.5', '13.5')),
  one('leap-second.csv', '23:59:60 UTC on a day that had it', value('13.5', '13.5', '13.5', '2016-12-31T23:59:60Z')),
  one('leap-day.csv', '29 February of a leap year', value('13.5', '13.5', '13.5', '2024-02-29')),
  one(
    'empty-value.csv',
    "Number('') is 0; an empty value is none",
    [['none', 'empty', null]],
    'SELECT kind, none_reason, kept_low FROM result WHERE file_id > 2',
  ),
  one('formula-as-accession.csv', '=1+1 is text here', [['=1+1']], ACCESSIONS),
  one(
    'proto-patient.csv',
    'a patient and an accession with words of every object',
    [['__proto__', 'constructor']],
    'SELECT patient_id, accession FROM result WHERE file_id > 2',
  ),
  one('names.csv', 'names are text', NAMES, 'SELECT id, family_name, given_name, clinician FROM patient WHERE file_id > 2 ORDER BY id'),
  {
    ...one(
      'object-words.json',
      'keys and numbers with words of every object',
      [['toString', '13.5']],
      'SELECT patient_id, value_text FROM result WHERE file_id > 2',
    ),
    rows: { filed: 2 },
  },
  one('nested-64-lists.json', 'the deepest that is read'),
  one('nested-64-objects.json', 'the deepest that is read'),
  one('byte-order-mark.json', 'a byte order mark'),
  one('crlf.ndjson', 'CRLF, and a blank line between', [['118'], ['13.5']], 'SELECT value_text FROM result WHERE file_id > 2 ORDER BY id'),
  one('minus-zero.json', '-0.0 is 0, and not below it', value('-0.0', '0', '0')),
  one('escaped.json', 'every text may be spelt with escapes', [['G1']], ACCESSIONS),
  one('byte-order-mark.hl7', 'a byte order mark'),
  one('crlf.hl7', 'lines end with CRLF'),
  one('lf.hl7', 'lines end with LF'),
  one('below.hl7', 'below what is measured', value('<0.1', '0', '0.1', '2024-06-02')),
  one('escapes.hl7', 'separators inside a text', [['A&B']], ACCESSIONS),
  { ...one('known-again.csv', 'the same again', [], ACCESSIONS), rows: { known: 1 } },
  {
    ...one('corrected.csv', 'a correction of what is known', [['14.6', 2]], 'SELECT value_text, version FROM result WHERE file_id > 2'),
    rows: { corrected: 1 },
  },
  { ...one('row-of-nothing.csv', 'a header alone', [], ACCESSIONS), rows: {} },
]
