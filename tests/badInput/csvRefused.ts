import { type FileCase, refused } from './case.ts'

const FORM = 'it needs a day written YYYY-MM-DD'
const NO_DAY = 'the calendar has no such day'
const DIGITS = 'it needs decimal digits'
const BIRTH = 'it needs a day, a month or a year'

/** A blank line between two good rows. */
const BETWEEN: FileCase = {
  file: 'csv/empty-line-between.csv',
  why: 'an empty line is a row of one empty field',
  rows: { filed: 2, refused: 1 },
  told: { line: 3, reason: 'row-too-short', says: '1 field where the header has 9' },
}

/** CSV: rows that are not stored. */
export const CSV_REFUSED = [
  BETWEEN,
  ...refused(
    ['csv/row-too-long.csv', 'a comma too many', 'row-too-long', '10 fields where the header has 9'],
    ['csv/row-too-short.csv', 'cut off', 'row-too-short', '2 fields where the header has 9'],
    ['csv/missing-patient.csv', 'of nobody', 'missing-field', 'patient_id is empty'],
    ['csv/missing-day.csv', 'of no day', 'missing-field', 'collected_at is empty'],
    ['csv/missing-code.csv', 'of nothing', 'missing-field', 'code is empty'],
    ['csv/date-february-30.csv', "new Date('2024-02-30') is 1 March", 'bad-date', NO_DAY],
    ['csv/date-february-29-of-2023.csv', 'no leap year', 'bad-date', NO_DAY],
    ['csv/date-hour-24.csv', '24:00 of one day or 00:00 of the next', 'bad-date', FORM],
    ['csv/date-minute-60.csv', 'no such minute', 'bad-date', FORM],
    ['csv/date-second-60-by-day.csv', 'leap seconds end a day of UTC', 'bad-date', FORM],
    ['csv/date-time-without-offset.csv', 'a time of nowhere', 'bad-date', 'a time needs its offset from UTC'],
    ['csv/date-offset-25.csv', 'no such offset', 'bad-date', FORM],
    ['csv/date-offset-15.csv', 'no place is 15 hours ahead', 'bad-date', FORM],
    ['csv/date-year-0000.csv', 'no such year', 'bad-date', NO_DAY],
    ['csv/date-year-of-two-digits.csv', '24 of which century', 'bad-date', 'a year needs four digits'],
    ['csv/date-slashes.csv', '6 March or 3 June', 'bad-date', FORM],
    ['csv/date-spreadsheet-number.csv', 'days since 1900, or since 1904', 'bad-date', FORM],
    ['csv/date-arabic-indic-day.csv', 'digits of another script', 'bad-date', FORM],
    ['csv/status-unknown.csv', 'words are taken as they are written', 'bad-status', '"FINAL" is unknown'],
    ['csv/status-object-word.csv', 'a word of every JavaScript object', 'bad-status', '"constructor" is unknown'],
    ['csv/number-nan.csv', 'not a number', 'not-a-number', DIGITS],
    ['csv/number-infinity.csv', 'no laboratory measures it', 'not-a-number', DIGITS],
    ['csv/number-minus-infinity.csv', 'nor that', 'not-a-number', DIGITS],
    ['csv/number-1e309.csv', 'Infinity in binary floating point', 'not-a-number', DIGITS],
    ['csv/number-hexadecimal.csv', "Number('0x1F') is 31", 'not-a-number', DIGITS],
    ['csv/number-spreadsheet-error.csv', "a spreadsheet's error", 'not-a-number', '"#NUM!"'],
    ['csv/number-41-digits.csv', 'more digits than any method has', 'not-a-number', DIGITS],
    ['csv/negative.csv', 'a concentration below 0', 'negative', 'value "-3" is below 0'],
    ['csv/negative-below.csv', 'below something below 0', 'negative', 'value "<-1" is below 0'],
    ['csv/patients-sex-unknown.csv', 'a letter is no word of the column', 'bad-word', 'one of female, male'],
    ['csv/patients-no-sex.csv', 'required', 'missing-field', 'sex is empty'],
    ['csv/patients-birth-date-february-30.csv', 'no such day', 'bad-date', BIRTH],
    ['csv/patients-birth-date-of-two-digits.csv', '1950 or 2050', 'bad-date', BIRTH],
    ['csv/patients-birth-date-year-0000.csv', 'no such year', 'bad-date', BIRTH],
    ['csv/patients-birth-date-year-1.csv', 'the first day some machines know, for none', 'bad-date', 'more than 130 years back'],
    ['csv/patients-birth-date-in-future.csv', 'not born yet', 'bad-date', 'it lies after today'],
    ['csv/patients-weight-negative.csv', 'lighter than nothing', 'negative', 'weight_kg "-72" is below 0'],
    ['csv/patients-weight-infinite.csv', 'heavier than everything', 'not-a-number', 'weight_kg "Infinity"'],
    ['csv/patients-status-unknown.csv', 'a word of no meaning here', 'bad-word', 'followed, transferred, discharged, died'],
    ['csv/course-column-not-used.csv', 'nothing that was written is dropped', 'column-not-used', 'imaging does not use that column'],
    ['csv/course-event-object-word.csv', 'a word of every JavaScript object', 'bad-word', 'event "constructor" is unknown'],
    ['csv/course-modality-unknown.csv', 'capitals', 'bad-word', 'xray, ct, pet-ct, mri'],
    ['csv/course-no-modality.csv', 'an image of no kind', 'missing-field', 'modality is empty'],
    ['csv/course-february-30.csv', 'no such day', 'bad-date', NO_DAY],
    ['csv/course-lesions-fraction.csv', 'one and a half lesions', 'not-a-whole-number', '0 to 9999'],
    ['csv/course-lesions-negative.csv', 'fewer than none', 'negative', 'lytic_lesions "-1" is below 0'],
    ['csv/course-plasma-cells-hexadecimal.csv', "Number('0x10') is 16", 'not-a-number', 'plasma_cells_percent "0x10"'],
  ),
]
