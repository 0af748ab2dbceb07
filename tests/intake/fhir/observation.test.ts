import { describe, expect, test } from 'vitest'
import { type Fields, fate, grams, loinc, observation, observed, resultsOf, spelt } from './resources.ts'

const LOINC = 'http://loinc.org'
const value = (changes: Fields) => {
  const read = observed(changes)
  return typeof read === 'string' ? read : read.value
}
const number = (text: string) => resultsOf(observation({ valueQuantity: grams(text) }))[0]?.fields.value

test.each(['1.0', '1', '14.20', '0.10', '123456789.123456789', '1.42e1'])('a value keeps its spelling: %s', (text) => {
  expect(number(text)).toBe(text)
})

describe('a value', () => {
  test.each<[string, Fields, object | string]>([
    ['a number', { valueQuantity: grams('14.2') }, { kind: 'number', comparator: null, printedUnit: 'g/L' }],
    ['less than', { valueQuantity: grams('1.0', { comparator: '<' }) }, { kind: 'number', comparator: '<' }],
    ['at most', { valueQuantity: grams('1.0', { comparator: '<=' }) }, { kind: 'number', comparator: '<=' }],
    ['at least', { valueQuantity: grams('50', { comparator: '>=' }) }, { kind: 'number', comparator: '>=' }],
    ['more than', { valueQuantity: grams('50', { comparator: '>' }) }, { kind: 'number', comparator: '>' }],
    ['sufficient to reach', { valueQuantity: grams('1.0', { comparator: 'ad' }) }, 'value-unreadable'],
    ['a unit in words', { valueQuantity: { value: 1.42, unit: 'g/dL' } }, { kind: 'number', printedUnit: 'g/dL' }],
    ['a code of no UCUM', { valueQuantity: { value: 1, system: 'http://example.org', code: 'g/L' } }, 'unit-missing'],
    ['no unit', { valueQuantity: { value: 1 } }, 'unit-missing'],
    ['a unit of something else', { valueQuantity: grams('1', { code: 'mm' }) }, 'unit-dimension'],
    ['a unit nobody knows', { valueQuantity: grams('1', { code: 'glug' }) }, 'unit-unknown'],
    ['beyond any exponent', { valueQuantity: grams('1e309') }, 'not-a-number'],
    ['below 0', { valueQuantity: grams('-1') }, 'negative'],
    ['outside what can be', { valueQuantity: grams('151') }, 'out-of-range'],
    ['words', { valueString: 'not detected' }, { kind: 'not-detected' }],
    ['words that are not known', { valueString: 'see chart 5' }, 'value-unreadable'],
    ['a decimal comma', { valueString: '12,5' }, 'decimal-comma'],
    ['a concept with text', { valueCodeableConcept: { text: 'not detected' } }, { kind: 'not-detected' }],
    ['a concept with a display', { valueCodeableConcept: { coding: [{ code: '1', display: 'Not detected' }] } }, { kind: 'not-detected' }],
    ['a concept with a code alone', { valueCodeableConcept: { coding: [{ system: 'http://snomed.info/sct', code: '1' }] } }, 'kind-not-read'],
    ['a count', { valueInteger: 14 }, 'kind-not-read'],
    ['yes', { valueBoolean: true }, 'kind-not-read'],
    ['a range', { valueRange: { low: { value: 1 }, high: { value: 2 } } }, 'kind-not-read'],
    ['a kind nobody knows', { valueMystery: 1 }, 'kind-not-read'],
    ['yes, of an immunofixation', { valueBoolean: true, code: loinc('25700-6') }, 'kind-not-read'],
    ['an immunofixation', { valueString: 'negative', code: loinc('25700-6') }, { kind: 'immunofixation', reading: { reading: 'negative' } }],
    ['none, with why', { valueQuantity: undefined, dataAbsentReason: { text: 'haemolysed' } }, { kind: 'none', reason: 'haemolysed' }],
    ['none, with a code of why', { valueString: undefined, dataAbsentReason: { coding: [{ code: 'error' }] } }, { kind: 'none', reason: 'error' }],
    ['none', { valueString: undefined }, { kind: 'none', reason: 'empty' }],
    ['cancelled', { valueString: undefined, status: 'cancelled' }, { kind: 'none', reason: 'cancelled' }],
    ['withdrawn, of a kind that is not read', { valueInteger: 1, status: 'entered-in-error' }, { kind: 'none', reason: 'valueInteger' }],
  ])('%s', (_, changes, expected) => {
    if (typeof expected === 'string') expect(value(changes)).toBe(expected)
    else expect(value(changes)).toMatchObject(expected)
  })
})

test.each([
  ['registered', 'bad-status'],
  ['preliminary', { status: 'preliminary' }],
  ['final', { status: 'final' }],
  ['amended', { status: 'corrected' }],
  ['corrected', { status: 'corrected' }],
  ['cancelled', { status: 'cancelled' }],
  ['entered-in-error', { status: 'entered-in-error' }],
  ['unknown', 'bad-status'],
  [undefined, 'bad-status'],
  ['toString', 'bad-status'],
])('the status %s', (status, expected) => {
  const read = observed({ status })
  if (typeof expected === 'string') expect(read).toBe(expected)
  else expect(read).toMatchObject(expected)
})

const coding = (...codings: readonly (readonly [string, string])[]): Fields => ({ coding: codings.map(([system, code]) => ({ system, code })) })
describe('a code', () => {
  test.each<[string, unknown, string]>([
    ['LOINC', coding([LOINC, '33358-3']), '33358-3'],
    ['LOINC among others', coding(['http://example.org', 'MSP'], [LOINC, '33358-3']), '33358-3'],
    ['two of LOINC for one analyte', coding([LOINC, '26464-8'], [LOINC, '6690-2']), '26464-8'],
    ['two of LOINC, one unknown', coding([LOINC, '1-8'], [LOINC, '718-7']), '718-7'],
  ])('%s', (_, code, expected) => {
    expect(resultsOf(observation({ code }))[0]?.fields.code).toBe(expected)
  })

  test.each<[string, unknown, string]>([
    ['two analytes at once', coding([LOINC, '33358-3'], [LOINC, '718-7']), 'unknown-code'],
    ['one that must never map beside', coding([LOINC, '2465-3'], [LOINC, '2464-6']), 'unknown-code'],
    ['a code of LOINC that is of another system', coding(['http://example.org', '33358-3']), 'unknown-code'],
    ['no system', { coding: [{ code: '33358-3' }] }, 'unknown-code'],
    ['text alone', { text: 'M-protein' }, 'unknown-code'],
    ['text that looks like LOINC', { text: ' 33358-3' }, 'unknown-code'],
    ['nothing', {}, 'missing-field'],
    ['none', undefined, 'missing-field'],
  ])('held or refused: %s', (_, code, reason) => {
    expect(observed({ code })).toBe(reason)
  })
})

const at = (changes: Fields) => observed({ effectiveDateTime: undefined, ...changes })
describe('when', () => {
  test.each<[string, Fields, string]>([
    ['a day', { effectiveDateTime: '2026-06-02' }, '2026-06-02'],
    ['a time', { effectiveDateTime: '2026-06-02T23:30:00+02:00' }, '2026-06-02T23:30:00+02:00'],
    ['an instant', { effectiveInstant: '2026-06-02T08:00:00Z' }, '2026-06-02T08:00:00Z'],
    ['a period', { effectivePeriod: { start: '2026-06-02', end: '2026-06-03' } }, '2026-06-02'],
  ])('%s', (_, changes, text) => {
    expect(at(changes)).toMatchObject({ collected: { text } })
  })

  test('the specimen says when, where the Observation does not', () => {
    const contained = [{ resourceType: 'Specimen', id: 's', collection: { collectedDateTime: '2026-06-02' }, accessionIdentifier: { value: 'S1' } }]
    expect(at({ contained, specimen: { reference: '#s' } })).toMatchObject({ collected: { on: '2026-06-02' }, accession: 'S1' })
  })

  test.each<[string, Fields, string]>([
    ['a year', { effectiveDateTime: '2026' }, 'bad-date'],
    ['a month', { effectiveDateTime: '2026-06' }, 'bad-date'],
    ['31 February', { effectiveDateTime: '2024-02-31' }, 'bad-date'],
    ['31 February with a time', { effectiveInstant: '2024-02-31T08:00:00Z' }, 'bad-date'],
    ['a time without offset', { effectiveDateTime: '2026-06-01T08:00:00' }, 'bad-date'],
    ['a timing', { effectiveTiming: { event: ['2026-06-01'] } }, 'kind-not-read'],
    ['a period without start', { effectivePeriod: { end: '2026-06-01' } }, 'missing-field'],
    ['nothing', {}, 'missing-field'],
    ['after today', { effectiveDateTime: '2027-01-01' }, 'collected-in-future'],
    ['a bad time of the report', { effectiveDateTime: '2026-06-01', issued: '2026-02-30T08:00:00Z' }, 'bad-date'],
  ])('held or refused: %s', (_, changes, reason) => {
    expect(at(changes)).toBe(reason)
  })
})

describe('limits', () => {
  const limits = (referenceRange: unknown) => resultsOf(observation({ referenceRange }))[0]?.fields
  test('as spelt, in the unit of the value', () => {
    expect(limits([{ low: grams('0.50'), high: { value: spelt('3.0') } }])).toMatchObject({ reference_low: '0.50', reference_high: '3.0' })
  })
  test('in another unit they are held', () => {
    expect(observed({ referenceRange: [{ high: { value: 300, unit: 'mg/dL' } }] })).toBe('limit-unreadable')
  })
  test('of several ranges, or one for a goal, none is taken', () => {
    expect(limits([{ high: grams('1') }, { high: grams('2') }])).not.toHaveProperty('reference_high')
    expect(limits([{ high: grams('1'), type: { coding: [{ code: 'treatment' }] } }])).not.toHaveProperty('reference_high')
  })
})

test('components are results of their own, with what the Observation says of all', () => {
  const component = [
    { code: loinc('36916-5'), valueQuantity: grams('12.0', { code: 'mg/L' }) },
    { code: loinc('33944-0'), dataAbsentReason: { text: 'haemolysed' } },
    { code: loinc('718-7'), valueInteger: 3 },
  ]
  const panel = observation({ valueString: undefined, identifier: [{ value: 'A9' }], component })
  expect(resultsOf(panel).map(fate)).toMatchObject([
    { analyte: 'kappa-flc', accession: 'A9', value: { kind: 'number' } },
    { analyte: 'lambda-flc', accession: 'A9', value: { kind: 'none', reason: 'haemolysed' } },
    'kind-not-read',
  ] as const)
  expect(resultsOf({ ...panel, valueString: 'not detected' })).toHaveLength(4)
})

describe('accession, laboratory, method, report time', () => {
  const where = (changes: Fields, ...others: readonly Fields[]) => fate(resultsOf(observation(changes), ...others)[0])
  const ACSN = { type: { coding: [{ code: 'ACSN' }] }, value: 'A2' }
  test.each<[string, Fields, readonly Fields[], Fields]>([
    ['an identifier', { identifier: [{ value: 'A1' }, { value: 'A3' }] }, [], { accession: 'A1' }],
    ['the accession number among identifiers', { identifier: [{ value: 'A1' }, ACSN] }, [], { accession: 'A2' }],
    ['the accession number of the order', { basedOn: [{ identifier: ACSN }] }, [], { accession: 'A2' }],
    ['no other number of the order', { basedOn: [{ identifier: { value: 'B1' } }] }, [], { accession: null }],
    [
      'the report',
      {},
      [{ resourceType: 'DiagnosticReport', identifier: [{ value: 'R1' }], result: [{ reference: 'Observation/o' }] }],
      { accession: 'R1' },
    ],
    [
      'a report that is refused',
      {},
      [{ resourceType: 'DiagnosticReport', implicitRules: 'x', identifier: [{ value: 'R1' }], result: [{ reference: 'Observation/o' }] }],
      { accession: null },
    ],
    ['none', {}, [], { accession: null, laboratory: null, method: null, reportedAt: null }],
    ['a laboratory by its name here', { performer: [{ display: 'North laboratory' }] }, [], { laboratory: 'North laboratory' }],
    [
      'a laboratory contained',
      { performer: [{ reference: '#l' }], contained: [{ resourceType: 'Organization', id: 'l', name: 'East' }] },
      [],
      { laboratory: 'East' },
    ],
    [
      'a laboratory of the file',
      { performer: [{ reference: 'Organization/l' }] },
      [{ resourceType: 'Organization', id: 'l', name: 'West' }],
      { laboratory: 'West' },
    ],
    ['a person is no laboratory', { performer: [{ reference: 'Practitioner/1', display: 'A person' }] }, [], { laboratory: null }],
    ['a method', { method: { text: 'Nephelometry' } }, [], { method: 'Nephelometry' }],
    ['a method by its display', { method: { coding: [{ display: 'Turbidimetry' }] } }, [], { method: 'Turbidimetry' }],
    ['a device', { device: { display: 'Analyser 1' } }, [], { method: 'Analyser 1' }],
    [
      'a device of the file',
      { device: { reference: 'Device/d' } },
      [{ resourceType: 'Device', id: 'd', deviceName: [{ name: 'Analyser 2' }] }],
      { method: 'Analyser 2' },
    ],
    ['the time of the report', { issued: '2026-06-02T08:00:00Z' }, [], { reportedAt: { text: '2026-06-02T08:00:00Z' } }],
  ])('%s', (_, changes, others, expected) => {
    expect(where(changes, ...others)).toMatchObject(expected)
  })
})
