import fc from 'fast-check'
import { expect, test } from 'vitest'
import { interpretResult, type RawRow, readTable } from '../../../lib/intake/index.ts'
import { decimalText, parseDecimal } from '../../../lib/units/index.ts'
import { bytesOf, patient, TODAY } from '../rows.ts'
import { fileOf, msh, obr, obx, orderOf, pid, rowsOf } from './messages.ts'

const COLUMNS = [
  'patient_id',
  'collected_at',
  'code',
  'value',
  'unit',
  'status',
  'accession',
  'laboratory',
  'method',
  'reference_low',
  'reference_high',
  'reported_at',
] as const

const STATUS = { P: 'preliminary', F: 'final', C: 'corrected', X: 'cancelled', W: 'entered-in-error' } as const

const two = (number: number): string => String(number).padStart(2, '0')
const number = fc.tuple(fc.nat(200), fc.nat(99)).map(([whole, hundredths]) => `${whole}.${two(hundredths)}`)
// Every mark that separates or escapes something in HL7 must come through a name unchanged.
const name = fc
  .string({ unit: fc.constantFrom('N', 'o', ' ', '|', '^', '~', '\\', '&', '"', ',', '\u00e9', '\u05d0'), minLength: 1, maxLength: 8 })
  .map((text) => `L${text}x`)
const sample = fc.record({
  patientId: fc.constantFrom('P1', 'P2'),
  month: fc.integer({ min: 1, max: 12 }),
  day: fc.integer({ min: 1, max: 28 }),
  time: fc.option(fc.tuple(fc.nat(23), fc.nat(59), fc.nat(59)), { nil: null }),
  code: fc.constantFrom('33358-3', '2465-3', '718-7', '36916-5', '2160-0', '777-3'),
  value: number,
  comparator: fc.constantFrom('', '<', '<=', '>', '>='),
  unit: fc.constantFrom('g/L', 'mg/dL', 'mg/L', '10*9/L', 'g', '10^9/L'),
  status: fc.constantFrom('P', 'F', 'C', 'X', 'W') as fc.Arbitrary<keyof typeof STATUS>,
  laboratory: name,
  method: name,
  limits: fc.option(fc.tuple(number, number), { nil: null }),
})

const escaped = (text: string): string =>
  text.replace(/[|^~\\&]/g, (mark) => `\\${{ '|': 'F', '^': 'S', '~': 'R', '\\': 'E', '&': 'T' }[mark] ?? ''}\\`)
const quotedCell = (text: string): string => `"${text.replaceAll('"', '""')}"`

type Sample = typeof sample extends fc.Arbitrary<infer Value> ? Value : never

/** The same invented result twice: as a message, and as the cells of a CSV row. */
function told({ patientId, month, day, time, value, comparator, status, limits, ...of }: Sample, at: number): { message: string; cells: string[] } {
  const days = ['2025', two(month), two(day)]
  const clock = (time ?? []).map(two)
  const result = obx({
    2: comparator === '' ? 'NM' : 'SN',
    3: `${of.code}^^LN`,
    5: comparator === '' ? value : `${comparator}^${value}`,
    6: escaped(of.unit),
    7: limits === null ? '' : limits.join('-'),
    11: status,
    14: days.join('') + clock.join(''),
    15: `^${escaped(of.laboratory)}`,
    17: `^${escaped(of.method)}`,
  })
  const collected = days.join('-') + (time === null ? '' : `T${clock.join(':')}+02:00`)
  const cells = [patientId, collected, of.code, `${comparator}${value}`, of.unit, STATUS[status], `A${at}`, of.laboratory, of.method]
  return {
    message: fileOf(msh({ 10: `M${at}` }), pid({ 3: `${patientId}^^^CLINIC^MR`, 7: '', 8: '' }), obr({ 3: `A${at}` }), result),
    cells: [...cells, limits?.[0] ?? '', limits?.[1] ?? '', '2026-06-01T12:00:00+02:00'],
  }
}

const columnsOf = (rows: readonly RawRow[]) => rows.map(({ fields }) => COLUMNS.map((column) => fields[column]))

test('a message says what a CSV row of the same data says, field by field and as a result', () => {
  fc.assert(
    fc.property(fc.array(sample, { minLength: 1, maxLength: 8 }), (samples) => {
      const both = samples.map(told)
      const csv = readTable(bytesOf([COLUMNS.join(','), ...both.map(({ cells }) => cells.map(quotedCell).join(','))].join('\n')), 'results.csv')
      if (!csv.ok) throw new Error(csv.sentence)
      const messages = rowsOf(both.map(({ message }) => message).join(''))
      expect(columnsOf(messages)).toEqual(columnsOf(csv.rows))
      const without = (raw: RawRow) => JSON.stringify({ ...interpretResult(raw, patient(), TODAY) }).replace(/"line":\d+/, '')
      expect(messages.map(without)).toEqual(csv.rows.map(without))
    }),
    { numRuns: 200 },
  )
})

const BASE = `${fileOf('FHS|^~\\&', 'BHS|^~\\&')}${orderOf(obx(), obx({ 2: 'SN', 3: '2465-3^IgG^LN', 5: '<^0.1', 7: '7-16' }), obx({ 2: 'TX', 3: '25700-6^^LN', 5: 'IgG\\E\\kappa', 6: '' }))}${fileOf('BTS|1', 'FTS|1')}`
const edits = fc.array(
  fc.tuple(fc.nat(5000), fc.constantFrom('', '|', '^', '~', '\\', '&', '\r', '\n', '"', '9', '.', '-', 'F', 'MSH|', '\u00e9', '""')),
  {
    maxLength: 6,
  },
)

function mutated(text: string, changes: readonly (readonly [number, string])[]): string {
  return changes.reduce((now, [at, put]) => {
    const where = at % (now.length + 1)
    return now.slice(0, where) + put + now.slice(where + (at % 2))
  }, text)
}

test('no change of a file crashes the reader, loses a row, or makes a number that its own text does not spell', () => {
  const fates = { file: 0, take: 0, held: 0, refused: 0 }
  fc.assert(
    fc.property(edits, (changes) => {
      const text = mutated(BASE, changes)
      const table = readTable(bytesOf(text), 'file.hl7')
      if (!table.ok) {
        fates.file++
        expect(table.sentence).toMatch(/file\.hl7 .+\.$/s)
        return
      }
      const lines = text.split(/\r\n|\r|\n/)
      expect(table.rows.filter(({ refusal }) => refusal === null)).toHaveLength(lines.filter((line) => line.startsWith('OBX')).length)
      for (const raw of table.rows) {
        expect(raw.text).toBe(lines[raw.line - 1])
        const read = interpretResult(raw, patient(), TODAY)
        fates[read.outcome]++
        if (read.outcome !== 'take') expect(read.sentence.length).toBeGreaterThan(20)
        else if (read.value.value.kind === 'number') {
          const { printed, comparator } = read.value.value
          const shown = comparator?.startsWith('<') ? printed.high : printed.low
          const received = raw.text.split(raw.text.charAt(3))[5] ?? ''
          const spelt = parseDecimal(received.replace(/[^\d.eE+-]/g, ''))
          expect(shown === null ? 'none' : decimalText(shown)).toBe(spelt === null ? 'nothing spelt' : decimalText(spelt))
        }
      }
    }),
    { numRuns: 1500 },
  )
  for (const count of Object.values(fates)) expect(count).toBeGreaterThan(20)
})

test('no bytes behind a header crash the reader', () => {
  fc.assert(
    fc.property(
      fc.constantFrom('MSH|^~\\&|', 'MSH', 'FHS|^~\\&\rMSH|', orderOf(obx()).slice(0, -9)),
      fc.uint8Array({ maxLength: 120 }),
      (head, tail) => {
        const table = readTable(Uint8Array.from([...bytesOf(head), ...tail]), 'file.hl7')
        for (const raw of table.ok ? table.rows : []) expect(['take', 'held', 'refused']).toContain(interpretResult(raw, patient(), TODAY).outcome)
      },
    ),
    { numRuns: 600 },
  )
})
