import fc from 'fast-check'
import { expect, test } from 'vitest'
import { interpretPatient, interpretResult, type RawRow, readTable } from '../../../lib/intake/index.ts'
import { decimalText, parseDecimal } from '../../../lib/units/index.ts'
import { bytesOf, patient, TODAY } from '../rows.ts'
import { bundleText, type Fields, json, patientResource, readText, spelt } from './resources.ts'

const UNITS = new Map([
  ['33358-3', 'g/L'],
  ['718-7', 'g/dL'],
  ['2160-0', 'mg/dL'],
  ['36916-5', 'mg/L'],
])
const good = fc.record({
  day: fc.integer({ min: 1, max: 30 }).map((day) => `2026-05-${String(day).padStart(2, '0')}`),
  code: fc.constantFrom(...UNITS.keys()),
  digits: fc.constantFrom('1.0', '1', '14.20', '11.05', '1.4e1', '20', '0.70'),
  comparator: fc.constantFrom('', '<', '>='),
  status: fc.constantFrom('final', 'preliminary', 'corrected', 'entered-in-error'),
  accession: fc.stringMatching(/^[A-Z]{1,3}\d{1,4}$/),
  laboratory: fc.constantFrom('', 'North'),
  high: fc.constantFrom('', '30.0'),
})
type Good = typeof good extends fc.Arbitrary<infer One> ? One : never

function asResource(one: Good): Fields {
  const unit = UNITS.get(one.code) ?? ''
  const quantity = (digits: string) => ({ value: spelt(digits), unit: 'as displayed', system: 'http://unitsofmeasure.org', code: unit })
  return {
    resourceType: 'Observation',
    status: one.status,
    subject: { reference: 'Patient/p' },
    code: { coding: [{ system: 'http://loinc.org', code: one.code }] },
    effectiveDateTime: one.day,
    valueQuantity: { ...quantity(one.digits), ...(one.comparator === '' ? {} : { comparator: one.comparator }) },
    identifier: [{ value: one.accession }],
    ...(one.laboratory === '' ? {} : { performer: [{ display: one.laboratory }] }),
    ...(one.high === '' ? {} : { referenceRange: [{ high: quantity(one.high) }] }),
  }
}

const COLUMNS = 'patient_id,collected_at,code,value,unit,status,accession,laboratory,reference_high'
const asCsv = (one: Good): string =>
  ['P1', one.day, one.code, one.comparator + one.digits, UNITS.get(one.code), one.status, one.accession, one.laboratory, one.high].join(',')

/** What the results of a file say, wherever in the file they stand. */
function said(text: string): unknown[] {
  const table = readText(text)
  const rows = table.ok ? table.rows.filter(({ kind }) => kind === 'results') : []
  return rows.map((row) => {
    const read = interpretResult(row, patient(), TODAY)
    return read.outcome === 'take' ? { ...read.value, provenance: { ...read.value.provenance, line: 0 } } : read
  })
}

test('the same results as Bundle, as NDJSON and as CSV say the same', () => {
  fc.assert(
    fc.property(fc.array(good, { minLength: 1, maxLength: 8 }), (results) => {
      const resources = [patientResource(), ...results.map(asResource)]
      const csv = said([COLUMNS, ...results.map(asCsv)].join('\n'))
      expect(csv).toHaveLength(results.length)
      expect(said(bundleText(resources))).toEqual(csv)
      expect(said(resources.map(json).join('\n'))).toEqual(csv)
    }),
  )
})

/** The number a row's value spells, null where it spells none. */
function spelling(row: RawRow): string | null {
  const number = parseDecimal((row.fields.value ?? '').replace(/^\s*[<>≤≥]?=?\s*|\s*$/g, ''))
  return number === null ? null : decimalText(number)
}

function outcomeOf(row: RawRow): 'take' | 'held' | 'refused' {
  if (row.kind === 'patients') return interpretPatient(row, null, TODAY).outcome
  const read = interpretResult(row, patient(), TODAY)
  if (read.outcome === 'take' && read.value.value.kind === 'number') {
    const { printed, comparator } = read.value.value
    const shown = comparator?.startsWith('<') ? printed.high : printed.low
    expect(spelling(row)).toBe(shown === null ? 'none' : decimalText(shown))
    // The digits stand in what came in, whatever happened to it on the way.
    expect(row.text).toContain((row.fields.value ?? '').replace(/^[<>]=?/, '').trim())
  } else if (read.outcome !== 'take') expect(read.sentence.length).toBeGreaterThan(20)
  return read.outcome
}

const PUT = ['', '"', '{', '}', '[', ']', ',', ':', 'e', '-', '9', '.', '0', '\n', '\\', 'null', 'true', '{}', '[]', '"__proto__":1,', '\u0000', 'é']
const edits = fc.array(fc.tuple(fc.nat(6_000), fc.constantFrom(...PUT), fc.boolean()), { minLength: 1, maxLength: 5 })
function mutated(text: string, changes: readonly (readonly [number, string, boolean])[]): string {
  return changes.reduce((now, [at, put, replaces]) => {
    const where = at % (now.length + 1)
    return now.slice(0, where) + put + now.slice(where + (replaces ? 1 : 0))
  }, text)
}

test('mutations of good files never crash, keep the law, and file no number their own text does not spell', () => {
  const reached = { refused: 0, read: 0 }
  fc.assert(
    fc.property(fc.array(good, { maxLength: 5 }), fc.boolean(), edits, (results, isBundle, changes) => {
      const resources = [patientResource(), ...results.map(asResource)]
      const table = readText(mutated(isBundle ? bundleText(resources) : resources.map(json).join('\n'), changes))
      if (!table.ok) {
        reached.refused++
        expect(table.sentence).toMatch(/file\.json .+\.$/s)
        return
      }
      reached.read++
      const outcomes = { take: 0, held: 0, refused: 0 }
      for (const row of table.rows) outcomes[outcomeOf(row)]++
      expect(outcomes.take + outcomes.held + outcomes.refused).toBe(table.rows.length)
    }),
    { numRuns: 1_500 },
  )
  expect(Math.min(reached.refused, reached.read)).toBeGreaterThan(50)
})

/** Any JSON in the place of any element of a good resource. */
const anything = fc.oneof(fc.constantFrom<unknown>(null, '', 0, true, {}, [], [null], [[]], [{}], { coding: [null] }), fc.jsonValue({ maxDepth: 3 }))
const ELEMENTS = [
  'status',
  'subject',
  'code',
  'effectiveDateTime',
  'valueQuantity',
  'identifier',
  'performer',
  'referenceRange',
  'component',
  'contained',
]
const MORE = [
  'hasMember',
  'specimen',
  'device',
  'method',
  'issued',
  'basedOn',
  'dataAbsentReason',
  'name',
  'link',
  'active',
  'birthDate',
  'id',
  'result',
]

test('any JSON in the place of any element: every entry is at least one row, and nothing crashes', () => {
  const one = fc.constant<Good>({
    day: '2026-05-01',
    code: '718-7',
    digits: '11.05',
    comparator: '',
    status: 'final',
    accession: 'A1',
    laboratory: 'North',
    high: '',
  })
  const type = fc.constantFrom('Patient', 'Observation', 'DiagnosticReport')
  const changed = fc.tuple(one, type, fc.dictionary(fc.constantFrom(...ELEMENTS, ...MORE), anything, { maxKeys: 3 }))
  fc.assert(
    fc.property(fc.array(changed, { minLength: 1, maxLength: 4 }), (all) => {
      const resources = all.map(([result, resourceType, changes]) => ({ ...asResource(result), ...patientResource(), ...changes, resourceType }))
      const table = readText(bundleText(resources))
      if (!table.ok) {
        expect(['broken-json', 'duplicate-key']).toContain(table.reason)
        return
      }
      expect(new Set(table.rows.map(({ line }) => line)).size).toBe(resources.length)
      for (const row of table.rows) expect(['take', 'held', 'refused']).toContain(outcomeOf(row))
    }),
    { numRuns: 600 },
  )
})

test('no bytes crash the reader', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('{', '{"resourceType":"Bundle","type":"batch","entry":[', '{"resourceType":"Patient"}\n'),
      fc.uint8Array(),
      (head, tail) => {
        const table = readTable(Uint8Array.from([...bytesOf(head), ...tail]), 'file.json')
        expect(table.ok || table.sentence.endsWith('.')).toBe(true)
      },
    ),
    { numRuns: 400 },
  )
})
