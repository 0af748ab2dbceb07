import { type RawRow, readTable } from '../../lib/intake/index.ts'
import type { Patient } from '../../lib/results/index.ts'
import { day, parseBirthDate } from '../../lib/time/index.ts'

export const TODAY = day('2026-06-30')

/** An invented patient, born 12 March 1950, followed. */
export function patient(changes: Partial<Patient> = {}): Patient {
  const birthDate = parseBirthDate('1950-03-12')
  if (birthDate === null) throw new RangeError('the test patient needs a birth date')
  const nothing = { familyName: null, givenName: null, weightKg: null, clinician: null, statusOn: null }
  return { id: 'P1', birthDate, sex: 'female', status: 'followed', ...nothing, ...changes }
}

/** The bytes of a text in UTF-8. */
export function bytesOf(text: string): Uint8Array {
  return new TextEncoder().encode(text)
}

/** The row a CSV file of these columns and texts begins with; every text is quoted. */
export function rowOf(fields: Readonly<Record<string, string>>): RawRow {
  const cells = (texts: readonly string[]): string => texts.map((text) => `"${text.replaceAll('"', '""')}"`).join(',')
  const table = readTable(bytesOf(`${cells(Object.keys(fields))}\n${cells(Object.values(fields))}\n`), 'test.csv')
  if (!table.ok) throw new Error(table.sentence)
  const [row] = table.rows
  if (row === undefined) throw new Error('the file has no row')
  return row
}

/** A serum M-protein of 14.2 g/L with changes. */
export function resultRow(changes: Readonly<Record<string, string>> = {}): RawRow {
  return rowOf({ patient_id: 'P1', collected_at: '2026-06-01', code: '33358-3', value: '14.2', unit: 'g/L', ...changes })
}
