import { expect, test } from 'vitest'
import { interpretResult, loincCodes, valueRange } from '../../lib/intake/index.ts'
import { ANALYTES, type Measured, type Patient } from '../../lib/results/index.ts'
import { day, parseBirthDate } from '../../lib/time/index.ts'
import { decimalText } from '../../lib/units/index.ts'
import { patient, resultRow, TODAY } from './rows.ts'

type Changes = Readonly<Record<string, string>>

const reasonOf = (changes: Changes, of: Patient | null = patient()): string => {
  const read = interpretResult(resultRow(changes), of, TODAY)
  return read.outcome === 'take' ? 'take' : `${read.outcome} ${read.reason}`
}

function measuredOf(changes: Changes): Measured {
  const read = interpretResult(resultRow(changes), patient(), TODAY)
  if (read.outcome !== 'take') throw new Error(read.sentence)
  return read.value.value
}

const keptText = (value: Measured): string =>
  value.kind === 'number' ? `${decimalText(value.kept.low)} ${value.kept.high === null ? 'up' : decimalText(value.kept.high)}` : value.kind

test.each([
  ['14.2', 'g/L', '14.2 14.2'],
  ['1.42', 'g/dL', '14.2 14.2'],
  ['<1', 'g/L', '0 1'],
  ['< 1', 'g/L', '0 1'],
  ['<=1', 'g/L', '0 1'],
  ['≤ 1', 'g/L', '0 1'],
  ['>50', 'g/L', '50 up'],
  ['>=50', 'g/L', '50 up'],
  ['0', 'g/L', '0 0'],
  ['1.234', 'g/L', '1.234 1.234'],
  ['not detected', '', 'not-detected'],
  ['None', '', 'not-detected'],
  ['No monoclonal protein', '', 'not-detected'],
  ['detected, not quantifiable', '', 'present'],
  ['trace', '', 'present'],
  ['faint', 'g/L', 'present'],
  ['haemolysed', 'g/L', 'none'],
  ['Hemolyzed sample', '', 'none'],
  ['see comment', '', 'none'],
  ['QNS', '', 'none'],
  ['pending', '', 'none'],
  ['', '', 'none'],
])('the serum M-protein "%s" %s reads as %s', (value, unit, kept) => {
  expect(keptText(measuredOf({ value, unit }))).toBe(kept)
})

test('a limit the report names with "trace" is kept in the kept unit', () => {
  const value = measuredOf({ value: 'trace (<0.05)', unit: 'g/dL' })
  expect(value.kind === 'present' && value.upTo !== null ? decimalText(value.upTo) : null).toBe('0.5')
})

test('an empty value is no value with the reason empty, never 0', () => {
  expect(measuredOf({ value: '' })).toEqual({ kind: 'none', reason: 'empty' })
})

test('a value keeps its printed number and unit beside the kept one', () => {
  expect(measuredOf({ code: '2160-0', value: '2', unit: 'mg/dl' })).toMatchObject({ printedUnit: 'mg/dL' })
  expect(keptText(measuredOf({ code: '2160-0', value: '2', unit: 'mg/dl' }))).toBe('176.8 176.8')
  expect(keptText(measuredOf({ code: '17861-6', value: '11', unit: 'mg/dL' }))).toBe('2.7445 2.7445')
})

test('an immunofixation is text without unit', () => {
  expect(measuredOf({ code: '25700-6', value: 'IgG kappa', unit: '' })).toMatchObject({ kind: 'immunofixation', reading: { reading: 'positive' } })
  expect(measuredOf({ code: '25700-6', value: 'something else', unit: '' })).toMatchObject({ reading: { reading: 'unread', text: 'something else' } })
})

test.each<[string, Changes, string]>([
  ['an unknown code', { code: '9999-9' }, 'unknown-code'],
  ['a missing unit', { unit: '' }, 'unit-missing'],
  ['a misspelt unit', { unit: 'mgdL' }, 'unit-unknown'],
  ['a unit of another dimension', { unit: 'mmol' }, 'unit-dimension'],
  ['a concentration for the urine of a day', { code: '42482-0', value: '300', unit: 'mg/L' }, 'unit-dimension'],
  ['an unknown patient', { patient_id: 'P2' }, 'unknown-patient'],
  ['a decimal comma', { value: '12,5' }, 'decimal-comma'],
  ['a decimal comma after a comparator', { value: '<0,125' }, 'decimal-comma'],
  ['a thousands separator or a decimal comma', { value: '1,234' }, 'thousands-separator'],
  ['a thousands point', { value: '1.234.567' }, 'thousands-separator'],
  ['a thousands blank', { value: '1 234' }, 'thousands-separator'],
  ['serum M-protein above 150 g/L', { value: '150.1' }, 'out-of-range'],
  ['haemoglobin above 250 g/L', { code: '718-7', value: '25.1', unit: 'g/dL' }, 'out-of-range'],
  ['a percentage above 100', { code: '11118-7', value: '101', unit: '%' }, 'out-of-range'],
  ['collected tomorrow', { collected_at: '2026-07-01' }, 'collected-in-future'],
  ['collected before birth', { collected_at: '1950-03-11' }, 'collected-before-birth'],
  ['words nobody knows', { value: 'ND' }, 'value-unreadable'],
  ['half a number', { value: '14.2 H' }, 'value-unreadable'],
  ['a range', { value: '5-10' }, 'value-unreadable'],
  ['not detected where 0 has another meaning', { code: '36916-5', unit: 'mg/L', value: 'not detected' }, 'value-unreadable'],
  ['a limit that is no number', { reference_high: 'high' }, 'limit-unreadable'],
  ['limits the wrong way round', { reference_low: '5', reference_high: '4' }, 'limit-unreadable'],
])('held: %s', (_what, changes, reason) => {
  expect(reasonOf(changes)).toBe(`held ${reason}`)
})

test.each(['2464-6', '2457-0', '2471-1', '11050-2', '11051-0', '6788-4', '40844-3'])('%s looks like an analyte and never maps', (code) => {
  expect(interpretResult(resultRow({ code }), patient(), TODAY)).toMatchObject({ outcome: 'held', reason: 'unknown-code', on: '2026-06-01' })
})

test.each<[string, Changes, string]>([
  ...['NaN', 'Infinity', '-inf', '1e309', '1E-400', '0x1F', '0b1', '#DIV/0!'].map((value): [string, Changes, string] => [
    value,
    { value },
    'not-a-number',
  ]),
  ['a negative concentration', { value: '-1' }, 'negative'],
  ['below a negative number', { value: '<-1' }, 'negative'],
  ['30 February', { collected_at: '2026-02-30' }, 'bad-date'],
  ['a two-digit year', { collected_at: '01.02.26' }, 'bad-date'],
  ['a time without offset', { collected_at: '2026-06-01T08:00' }, 'bad-date'],
  ['a report time of no day', { reported_at: '2026-02-30' }, 'bad-date'],
  ['an unknown status', { status: 'Final' }, 'bad-status'],
  ['no patient', { patient_id: '  ' }, 'missing-field'],
  ['no code', { code: '' }, 'missing-field'],
  ['no day', { collected_at: '' }, 'missing-field'],
])('refused: %s', (_what, changes, reason) => {
  expect(reasonOf(changes)).toBe(`refused ${reason}`)
})

test('what no row may be is refused even where the patient is unknown', () => {
  expect(reasonOf({ value: 'NaN' }, null)).toBe('refused not-a-number')
})

test('collected after death is held, on the day itself taken', () => {
  const died = patient({ status: 'died', statusOn: day('2026-05-31') })
  expect(reasonOf({}, died)).toBe('held collected-after-death')
  expect(reasonOf({ collected_at: '2026-05-31' }, died)).toBe('take')
})

test('a birth known by its year begins with that year', () => {
  const born = patient({ birthDate: parseBirthDate('2026') ?? patient().birthDate })
  expect(reasonOf({ collected_at: '2026-01-01' }, born)).toBe('take')
  expect(reasonOf({ collected_at: '2025-12-31' }, born)).toBe('held collected-before-birth')
})

test('a withdrawal never fails on the value it takes back', () => {
  expect(measuredOf({ status: 'cancelled', value: '14.2', unit: 'mgdL' })).toEqual({ kind: 'none', reason: '14.2' })
  expect(measuredOf({ status: 'entered-in-error', value: '900', unit: 'g/L' })).toEqual({ kind: 'none', reason: '900' })
})

test('a sentence quotes the text, says what it needs and lets no control character through', () => {
  const read = interpretResult(resultRow({ unit: 'mg\u001b[31m' }), patient(), TODAY)
  expect(read.outcome === 'take' ? '' : read.sentence).toBe(
    'The unit "mg\\u001b[31m" is no UCUM unit and no known synonym of one; it needs a unit that converts to g/L.',
  )
})

test('every analyte has a code, and every analyte but the immunofixations a range', () => {
  expect(new Set(loincCodes().map(([, analyte]) => analyte))).toEqual(new Set(ANALYTES))
  expect(ANALYTES.filter((analyte) => valueRange(analyte) === null)).toEqual(['serum-immunofixation', 'urine-immunofixation'])
})
