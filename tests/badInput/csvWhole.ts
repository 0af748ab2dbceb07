import { whole } from './case.ts'

const COLUMN_NAMES = 'it needs their column names, separated by commas'

/** CSV: files of which nothing is read. */
export const CSV_WHOLE = whole(
  ['csv/empty.csv', 'no byte', 'empty-file', 'it needs a header row'],
  ['csv/only-byte-order-mark.csv', 'a mark of nothing', 'empty-file', 'it needs a header row'],
  ['csv/only-blanks.csv', 'blanks and line ends', 'empty-file', 'it needs a header row'],
  ['csv/nul-byte.csv', 'a NUL byte ends a text in other programs', 'nul-byte', 'at byte 134'],
  ['csv/latin-1.csv', 'an umlaut of one byte', 'not-utf-8', 'byte 151 begins no character'],
  ['csv/overlong.csv', 'a slash spelt in two bytes', 'not-utf-8', 'byte 123 begins no character'],
  ['csv/surrogate.csv', 'half a pair in three bytes', 'not-utf-8', 'byte 123 begins no character'],
  ['csv/cut-inside-character.csv', 'cut off inside a character', 'not-utf-8', 'byte 123 begins no character'],
  ['csv/utf-16-le.csv', 'as some spreadsheets save "Unicode text"', 'not-utf-8', 'it is the mark of UTF-16'],
  ['csv/utf-16-be.csv', 'the same, other bytes first', 'not-utf-8', 'it is the mark of UTF-16'],
  ['csv/utf-16-no-mark.csv', 'every second byte is NUL', 'nul-byte', 'at byte 2'],
  ['csv/unclosed-quote.csv', 'nobody can tell where the row ends', 'unclosed-quote', 'on line 3 that is never closed'],
  ['csv/misplaced-quote.csv', 'text behind a closing quote', 'misplaced-quote', 'begins on line 3; a quote inside a field must be doubled'],
  ['csv/header-of-nothing-known.csv', 'another table', 'unknown-header', COLUMN_NAMES],
  ['csv/semicolons.csv', 'semicolons, as spreadsheets write where the comma is decimal', 'unknown-header', COLUMN_NAMES],
  ['csv/tabs.csv', 'tabs', 'unknown-header', COLUMN_NAMES],
  ['csv/no-header.csv', 'rows alone, some cells empty', 'unknown-header', COLUMN_NAMES],
  ['csv/header-in-capitals.csv', 'names are taken as they are written', 'unknown-header', COLUMN_NAMES],
  ['csv/header-of-two-kinds.csv', 'a course or patients', 'unknown-header', COLUMN_NAMES],
  ['csv/column-missing.csv', 'results without value', 'missing-column', 'no column value'],
  ['csv/column-unit-missing.csv', 'masses without unit', 'missing-column', 'no column unit'],
  ['csv/column-twice.csv', 'two values of each row', 'duplicate-column', '"value" twice'],
  ['csv/column-proto-twice.csv', 'a word like any other', 'duplicate-column', '"__proto__" twice'],
  ['csv/column-proto.csv', 'a word like any other', 'unknown-column', 'the unknown column "__proto__"'],
  ['csv/column-constructor.csv', 'a word like any other', 'unknown-column', 'the unknown column "constructor"'],
  ['csv/column-toString.csv', 'a word like any other', 'unknown-column', 'the unknown column "toString"'],
  ['csv/column-without-name.csv', 'a column of nothing', 'unknown-column', 'no name for column 4'],
)

const container = (name: string, why: string, says: string) => [`containers/${name}`, why, 'not-a-text-file', says] as const

/** Other kinds of file under a name that promises text. Nothing is unpacked. */
export const CONTAINERS = whole(
  container('zip.csv', 'an archive', 'is a ZIP archive or a spreadsheet'),
  container('zip-empty.csv', 'an archive of nothing', 'is an empty ZIP archive'),
  container('zip-behind-text.csv', 'unpackers look at the end of a file', 'is a ZIP archive with something before it'),
  container('xlsx.csv', 'a spreadsheet renamed', 'it needs to be saved as CSV'),
  container('ods.json', 'another spreadsheet renamed', 'it needs to be saved as CSV'),
  container('docx.hl7', 'a document renamed', 'is a ZIP archive or a spreadsheet'),
  container('binary-spreadsheet.csv', 'a spreadsheet of the nineties', 'of the older binary kind'),
  container('spreadsheet-xml.csv', 'a spreadsheet saved as XML', 'is an XML document'),
  container('web-page.csv', 'a table of a web page, as some systems export spreadsheets', 'is an XML document, a web page'),
  container('fhir-xml.json', 'FHIR in XML', 'is an XML document'),
  container('pdf.csv', 'a report for people', 'is a PDF document'),
  container('rtf.json', 'begins with a brace, as JSON does', 'is a document of a word processor'),
  container('gzip.csv', 'compressed', 'is a gzip archive'),
  container('bzip2.csv', 'compressed', 'is a bzip2 archive'),
  container('xz.csv', 'compressed', 'is an xz archive'),
  container('zstandard.csv', 'compressed', 'is a Zstandard archive'),
  container('compress.csv', 'compressed', 'is a compressed file'),
  container('seven-zip.csv', 'an archive', 'is a 7z archive'),
  container('rar.csv', 'an archive', 'is a RAR archive'),
)
