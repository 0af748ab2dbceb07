import { interpretPatient, interpretResult, type RawRow, type ReadTable, readTable } from '../../../lib/intake/index.ts'
import type { IncomingResult } from '../../../lib/results/index.ts'
import { bytesOf, patient, TODAY } from '../rows.ts'

export type Fields = Readonly<Record<string, unknown>>

/** A number with digits that JSON.stringify would lose: written as given by `json`. */
export const spelt = (digits: string): string => `spelt:${digits}`

/** JSON with the numbers of `spelt` as they are. */
export function json(value: unknown): string {
  return JSON.stringify(value).replace(/"spelt:([^"]*)"/g, '$1')
}

/** An invented patient P1, born 12 March 1950, with changes. */
export function patientResource(changes: Fields = {}): Fields {
  const identifier = [{ type: { coding: [{ system: 'http://terminology.hl7.org/CodeSystem/v2-0203', code: 'MR' }] }, value: 'P1' }]
  return { resourceType: 'Patient', id: 'p', identifier, birthDate: '1950-03-12', gender: 'female', ...changes }
}

export const loinc = (code: string): Fields => ({ coding: [{ system: 'http://loinc.org', code }] })
export const grams = (value: string, changes: Fields = {}): Fields => ({
  value: spelt(value),
  unit: 'g/L',
  system: 'http://unitsofmeasure.org',
  code: 'g/L',
  ...changes,
})

/** A serum M-protein of 14.2 g/L of Patient p, with changes; a change to undefined takes an element away. */
export function observation(changes: Fields = {}): Fields {
  const value = Object.keys(changes).some((key) => key.startsWith('value')) ? {} : { valueQuantity: grams('14.2') }
  const when = { effectiveDateTime: '2026-06-01', subject: { reference: 'Patient/p' } }
  return { resourceType: 'Observation', id: 'o', status: 'final', code: loinc('33358-3'), ...when, ...value, ...changes }
}

export function bundleText(resources: readonly Fields[], changes: Fields = {}): string {
  return json({ resourceType: 'Bundle', type: 'collection', entry: resources.map((resource) => ({ resource })), ...changes })
}

export function readText(text: string, fileName = 'file.json'): ReadTable {
  return readTable(bytesOf(text), fileName)
}

/** The rows of a file. Throws where it is refused. */
export function rowsOf(text: string): readonly RawRow[] {
  const table = readText(text)
  if (!table.ok) throw new Error(table.sentence)
  return table.rows
}

/** The rows of a Bundle with the patient and these resources, without those of the patient. */
export function resultsOf(...resources: readonly Fields[]): readonly RawRow[] {
  return rowsOf(bundleText([patientResource(), ...resources])).filter(({ kind }) => kind === 'results')
}

/** What becomes of a row of results for P1: the result, or the reason. */
export function fate(row: RawRow | undefined): IncomingResult | string {
  if (row === undefined) return 'no row'
  const read = interpretResult(row, patient(), TODAY)
  return read.outcome === 'take' ? read.value : read.reason
}

/** What becomes of the first row of one Observation. */
export function observed(changes: Fields): IncomingResult | string {
  return fate(resultsOf(observation(changes))[0])
}

/** What becomes of one Patient: the patient, or the reason. */
export function told(changes: Fields) {
  const [row] = rowsOf(bundleText([patientResource(changes)]))
  if (row === undefined) throw new Error('the file has no row')
  const read = interpretPatient(row, null, TODAY)
  return read.outcome === 'take' ? read.value : read.reason
}
