import { UcumLhcUtils } from '@lhncbc/ucum-lhc'
import { expect } from 'vitest'
import type { FileReport } from '../../lib/usecases/index.ts'
import { fromOutside, type Outside } from '../store/outside.ts'
import { isSame, isSpeltIn, spelling, valueSpelling } from './spelling.ts'

/** A file as it was sent, and what its report says. */
export interface Sent {
  readonly text: string
  readonly report: FileReport
}

type Row = Readonly<Record<string, string | number | null>>

const ucum = UcumLhcUtils.getInstance() as unknown as {
  convertUnitTo(from: string, value: number, to: string, options?: { molecularWeight: number }): { readonly toVal: number | null }
}

// Units kept, as clinical.md 1.3 names them; molar masses in g/mol: calcium and creatinine by IUPAC standard atomic weights (2021), haemoglobin as
// its monomer of 16,114 (from memory). A laboratory's factor is rounded, so a step between mass and amount of substance is held to a thousandth.
const KEPT: Readonly<Record<string, { readonly unit: string; readonly molarMass?: number }>> = {
  'serum-m-protein': { unit: 'g/L' },
  'kappa-flc': { unit: 'mg/L' },
  haemoglobin: { unit: 'g/L', molarMass: 16_114 },
  creatinine: { unit: 'umol/L', molarMass: 113.12 },
  calcium: { unit: 'mmol/L', molarMass: 40.078 },
  platelets: { unit: '10*9/L' },
  'flc-ratio': { unit: '1' },
}

/** What the UCUM library multiplies by. */
function factorOf(analyte: string, printedUnit: string): number {
  const kept = KEPT[analyte]
  if (kept === undefined) throw new Error(`no file of these tests has ${analyte}`)
  const { molarMass } = kept
  const direct = ucum.convertUnitTo(printedUnit, 1, kept.unit).toVal
  const answer = direct ?? (molarMass === undefined ? null : ucum.convertUnitTo(printedUnit, 1, kept.unit, { molecularWeight: molarMass }).toVal)
  expect(answer, `${printedUnit} to ${kept.unit}`).not.toBeNull()
  return answer ?? Number.NaN
}

function expectKept(kept: unknown, printed: unknown, factor: number): void {
  const expected = Number(printed) * factor
  expect(Math.abs(Number(kept) - expected)).toBeLessThanOrEqual(Math.abs(expected) * 1e-3)
  // Where no substance stands between the units, the library's own number to its twelve digits.
  const isPowerOfTen = Math.abs(Math.log10(factor) - Math.round(Math.log10(factor))) < 1e-9
  if (isPowerOfTen) expect(Math.abs(Number(kept) - expected)).toBeLessThanOrEqual(Math.abs(expected) * 1e-11)
}

/** The printed number of a result is the one its own text spells, that text came in, and what is kept is it times the factor of UCUM. */
function expectSpelt(row: Row, source: string): void {
  const factor = factorOf(String(row.analyte), String(row.printed_unit))
  for (const limit of ['low', 'high']) {
    const printed = row[`reference_${limit}_printed`]
    if (printed === null) continue
    expect(isSpeltIn(source, spelling(String(printed))), `limit ${printed} in ${source}`).toBe(true)
    expectKept(row[`reference_${limit}_kept`], printed, factor)
  }
  const { comparator, number } = valueSpelling(String(row.value_text))
  const said = `${row.value_text} of ${row.unit_text} as ${row.printed_low} to ${row.printed_high}`
  const [low, high] = [row.printed_low, row.printed_high].map((text) => (text === null ? null : spelling(String(text))))
  const isBelow = ['less than', '<', '<=', '=<', '\u2264'].includes(comparator)
  expect(isSame(isBelow ? (high ?? null) : (low ?? null), number), said).toBe(true)
  if (isBelow) expect(row.printed_low, said).toBe('0')
  else expect(row.printed_high, said).toBe(comparator === '' ? row.printed_low : null)
  expect(number?.digits ?? -1n, said).toBeGreaterThanOrEqual(0n)
  // An escape may spell a digit another way.
  if (!source.includes('\\')) expect(isSpeltIn(source, number), said).toBe(true)
  for (const end of ['low', 'high']) if (row[`printed_${end}`] !== null) expectKept(row[`kept_${end}`], row[`printed_${end}`], factor)
}

const fates = ({ filed, known, corrected, held, refused }: FileReport): number[] => [filed, known, corrected, held, refused]
const sum = (counts: readonly number[]): number => counts.reduce((all, count) => all + count, 0)

/** Every row of every file is counted once, as its report says, and stands where it is counted. */
function expectCounted(db: Outside, sent: readonly Sent[]): void {
  const count = (sql: string, ...cells: readonly number[]) => db.value<number>(`SELECT count(*) FROM ${sql}`, ...cells)
  for (const { report } of sent) {
    expect(sum(fates(report)), report.fileName).toBe(report.rows)
    expect(report.rows).toBe(report.rowsInFile)
    expect(report.problems).toHaveLength(report.held + report.refused)
    if (report.fileId === null) continue
    const stored = db.get<Row>('SELECT filed, known, corrected, held, refused, rows_read FROM intake_file WHERE id = ?', report.fileId)
    expect(Object.values(stored ?? {})).toEqual([...fates(report), report.rows])
    expect(count('held_row WHERE file_id = ?', report.fileId)).toBe(report.held)
    expect(count('refused_row WHERE file_id = ?', report.fileId)).toBe(report.refused)
  }
  const taken = sum(sent.map(({ report }) => report.filed + report.corrected + report.released))
  expect(sum(['result', 'course_event', 'patient', 'patient_version'].map((table) => count(table) ?? 0))).toBe(taken)
}

/** Numbers of patients and courses stand in the file they came with, digit for digit. */
function expectOthersSpelt(db: Outside, textOf: (fileId: unknown) => string): void {
  for (const { weight, fileId } of db.all('SELECT weight_kg AS weight, file_id AS fileId FROM patient WHERE weight_kg IS NOT NULL') as Row[]) {
    expect(isSpeltIn(textOf(fileId), spelling(String(weight))), `weight ${weight}`).toBe(true)
  }
  for (const { payload, fileId } of db.all('SELECT payload, file_id AS fileId FROM course_event') as Row[]) {
    const event = JSON.parse(String(payload)) as Record<string, unknown>
    for (const name of ['lyticLesions', 'focalLesions5mm', 'newLesions', 'growthPercent', 'plasmaCellsPercent', 'line']) {
      const number = event[name]
      if (number !== null && number !== undefined) expect(isSpeltIn(textOf(fileId), spelling(String(number))), `${name} ${number}`).toBe(true)
    }
  }
}

/** How many numbers of each kind were held to their texts, so that a test can tell that it saw some. */
export interface Seen {
  results: number
  others: number
}

/** How many results and events a file brought. */
export function filedFrom(url: string, fileId: number | null): number {
  const db = fromOutside(url, { reading: true })
  const sql = 'SELECT (SELECT count(*) FROM result WHERE file_id = ?) + (SELECT count(*) FROM course_event WHERE file_id = ?)'
  const filed = db.value<number>(sql, fileId, fileId)
  db.close()
  return filed ?? 0
}

/** Holds a database to the law of intake, given everything that was sent to it. */
export function expectLaw(url: string, sent: readonly Sent[], seen: Seen): void {
  const db = fromOutside(url, { reading: true })
  const textOf = (fileId: unknown): string => sent.find(({ report }) => report.fileId === fileId)?.text ?? ''
  try {
    expectCounted(db, sent)
    const numbers = db.all("SELECT * FROM result WHERE kind = 'number'") as Row[]
    for (const row of numbers) expectSpelt(row, textOf(row.file_id))
    expectOthersSpelt(db, textOf)
    seen.results += numbers.length
    seen.others += db.value('SELECT (SELECT count(*) FROM course_event) + (SELECT count(weight_kg) FROM patient)') as number
    expect(({} as Record<string, unknown>).polluted).toBe(undefined)
    expect(Object.keys(Object.prototype)).toEqual([])
  } finally {
    db.close()
  }
}
