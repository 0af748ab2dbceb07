import { type Interpreted, interpretResult, type RawRow, readTable } from '../../../lib/intake/index.ts'
import type { IncomingResult } from '../../../lib/results/index.ts'
import { bytesOf, patient, TODAY } from '../rows.ts'

type Fields = Readonly<Record<number, string>>

/** A segment with its fields by number; empty ones between. MSH counts its separator as field 1. */
export function segment(name: string, fields: Fields): string {
  const last = Math.max(...Object.keys(fields).map(Number))
  const from = name === 'MSH' ? 2 : 1
  return [name, ...Array.from({ length: last - from + 1 }, (_, at) => fields[at + from] ?? '')].join('|')
}

export const msh = (changes: Fields = {}): string =>
  segment('MSH', { 2: '^~\\&', 4: 'NORTH', 7: '20260601120000+0200', 9: 'ORU^R01^ORU_R01', 10: 'M1', 11: 'P', 12: '2.5.1', ...changes })
export const pid = (changes: Fields = {}): string =>
  segment('PID', { 1: '1', 3: 'P1^^^CLINIC^MR', 5: 'Invented^Ann', 7: '19500312', 8: 'F', ...changes })
export const obr = (changes: Fields = {}): string => segment('OBR', { 1: '1', 2: 'O1', 3: 'A1', 4: 'PEP^Protein^L', 7: '20260601', ...changes })
export const obx = (changes: Fields = {}): string =>
  segment('OBX', { 1: '1', 2: 'NM', 3: '33358-3^M protein^LN', 5: '14.2', 6: 'g/L', 11: 'F', ...changes })

/** Segments as a file, each ended by a carriage return. */
export const fileOf = (...segments: readonly string[]): string => segments.map((text) => `${text}\r`).join('')

/** A message of one order with these segments behind it. */
export const orderOf = (...segments: readonly string[]): string => fileOf(msh(), pid(), obr(), ...segments)

/** The rows of a text. Throws where the file is refused. */
export function rowsOf(text: string): readonly RawRow[] {
  const table = readTable(bytesOf(text), 'lab.hl7')
  if (!table.ok) throw new Error(table.sentence)
  return table.rows
}

/** The only row of a text. */
export function rowOf(text: string): RawRow {
  const [row, ...others] = rowsOf(text)
  if (row === undefined || others.length > 0) throw new Error(`${others.length + (row === undefined ? 0 : 1)} rows where one was asked for`)
  return row
}

/** What the patient P1, born 12 March 1950, female, gets from the only row of a text. */
export function readOf(text: string): Interpreted<IncomingResult> {
  return interpretResult(rowOf(text), patient(), TODAY)
}

/** The outcome of a row in a word: `take`, or the reason why not. */
export function fateOf(text: string): string {
  const read = readOf(text)
  return read.outcome === 'take' ? 'take' : read.reason
}
