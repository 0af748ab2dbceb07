import fc from 'fast-check'
import { expect, test } from 'vitest'
import { interpretCourseEvent, interpretPatient, interpretResult, readTable } from '../../lib/intake/index.ts'
import { decimalText, parseDecimal } from '../../lib/units/index.ts'
import { bytesOf, patient, TODAY } from './rows.ts'

const VALUES = [
  '14.2',
  '<1',
  '> 5000',
  '12,5',
  '1,234',
  'NaN',
  '0x1F',
  '1e309',
  '',
  'trace',
  'not detected',
  '-3',
  '__proto__',
  '14.2 H',
  '١٢',
  '1_000',
]
const UNITS = ['g/L', 'mg/dL', 'mg/dl', 'g', '', 'constructor', 'K/uL', 'mg/24 h', '%']
const CODES = ['33358-3', '718-7', '2160-0', '25700-6', '2464-6', 'toString', '42482-0']

const cell = (words: readonly string[]) =>
  fc.oneof({ weight: 6, arbitrary: fc.constantFrom(...words) }, { weight: 1, arbitrary: fc.string({ unit: 'binary', maxLength: 8 }) })
const row = fc.tuple(
  cell(['P1', 'P2']),
  cell(['2026-06-01', '2026-02-30', '2030-01-01', '2026-06-01T08:00+02:00']),
  cell(CODES),
  cell(VALUES),
  cell(UNITS),
  cell(['', 'final', 'cancelled']),
)
const quotedCell = (text: string): string => `"${text.replaceAll('"', '""')}"`

/** Changes, drops or doubles single characters. */
function mutated(text: string, changes: readonly (readonly [number, string])[]): string {
  return changes.reduce((now, [at, put]) => {
    const where = at % (now.length + 1)
    return now.slice(0, where) + put + now.slice(where + (put.length === 1 ? 0 : 1))
  }, text)
}

const changes = fc.array(fc.tuple(fc.nat(5000), fc.constantFrom('', ',', '"', '\n', '\r', '\u0000', 'e', '-', '9', '.', 'é')), { maxLength: 6 })

test('rows = taken + held + refused for any file, and no number that its own text does not spell', () => {
  fc.assert(
    fc.property(fc.array(row, { maxLength: 12 }), changes, (rows, edits) => {
      const whole = ['patient_id,collected_at,code,value,unit,status', ...rows.map((cells) => cells.map(quotedCell).join(','))].join('\n')
      const table = readTable(bytesOf(mutated(whole, edits)), 'file.csv')
      if (!table.ok) {
        expect(table.sentence).toMatch(/file\.csv .+\.$/s)
        return
      }
      const outcomes = { take: 0, held: 0, refused: 0 }
      for (const raw of table.rows) {
        const read = interpretResult(raw, patient(), TODAY)
        outcomes[read.outcome]++
        if (read.outcome === 'take' && read.value.value.kind === 'number') {
          const { printed, comparator } = read.value.value
          const shown = comparator?.startsWith('<') ? printed.high : printed.low
          const spelt = parseDecimal((raw.fields.value ?? '').replace(/^\s*[<>≤≥]?=?\s*|\s*$/g, ''))
          expect(shown === null ? 'none' : decimalText(shown)).toBe(spelt === null ? 'nothing spelt' : decimalText(spelt))
        } else if (read.outcome !== 'take') expect(read.sentence.length).toBeGreaterThan(20)
      }
      expect(outcomes.take + outcomes.held + outcomes.refused).toBe(table.rows.length)
    }),
    { numRuns: 400 },
  )
})

test('no bytes crash the reader, whichever table they spell', () => {
  const headers = ['patient_id,birth_date,sex,weight_kg,status\n', 'patient_id,on,event,phase,line,growth_percent\n', '']
  fc.assert(
    fc.property(fc.constantFrom(...headers), fc.uint8Array({ maxLength: 200 }), (header, tail) => {
      const table = readTable(Uint8Array.from([...bytesOf(header), ...tail]), 'file.csv')
      for (const raw of table.ok ? table.rows : []) {
        const read = table.ok && table.kind === 'course' ? interpretCourseEvent(raw, patient(), TODAY) : interpretPatient(raw, null, TODAY)
        expect(['take', 'held', 'refused']).toContain(read.outcome)
      }
    }),
    { numRuns: 400 },
  )
})
