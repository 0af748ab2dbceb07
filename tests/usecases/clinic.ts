import type { Store } from '../../lib/store/index.ts'
import { day } from '../../lib/time/index.ts'
import { acceptFiles, type Call, type FileReport, type IncomingFile, listDocument } from '../../lib/usecases/index.ts'
import { callOf, granted } from './accounts/persons.ts'

export const TODAY = day('2026-11-25')

/** A CSV file of these rows; the header is every column any row has. */
export function csv(name: string, rows: readonly Readonly<Record<string, string>>[]): IncomingFile {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))]
  const cells = (texts: readonly string[]) => texts.map((text) => `"${text.replaceAll('"', '""')}"`).join(',')
  const lines = [cells(columns), ...rows.map((row) => cells(columns.map((column) => row[column] ?? '')))]
  return { name, bytes: new TextEncoder().encode(`${lines.join('\n')}\n`) }
}

export type Row = Readonly<Record<string, string>>

/** A serum M-protein of 14.2 g/L of patient P1, with changes. */
export function resultRow(changes: Row = {}): Row {
  return { patient_id: 'P1', collected_at: '2026-06-01', code: '33358-3', value: '14.2', unit: 'g/L', status: '', accession: 'A1', ...changes }
}

/** An invented patient born in 1950, with changes. */
export function patientRow(changes: Row = {}): Row {
  return { patient_id: 'P1', birth_date: '1950-03-12', sex: 'female', ...changes }
}

/** Active IgG kappa disease since 2024 with one line of treatment. */
export function courseRows(patientId = 'P1'): Row[] {
  return [
    { patient_id: patientId, on: '2024-01-10', event: 'diagnosis', phase: 'active', heavy_chain: 'G', light_chain: 'kappa', line: '', regimen: '' },
    { patient_id: patientId, on: '2024-01-20', event: 'line-start', phase: '', heavy_chain: '', light_chain: '', line: '1', regimen: 'bortezomib' },
  ]
}

/** Takes files in and answers their reports. Throws where intake is refused. */
export async function take(store: Store, files: readonly IncomingFile[], { dryRun = false, call = callOf(store) }: Taking = {}) {
  return granted(await acceptFiles(call, files, { source: 'tests', dryRun }))
}

interface Taking {
  readonly dryRun?: boolean
  readonly call?: Call
}

/** What became of the rows, in one line to compare. */
export function counts({ rows, filed, known, corrected, held, refused, released }: FileReport): Partial<FileReport> {
  return { rows, filed, known, corrected, held, refused, released }
}

/** Nothing of any kind, with what there is of some. */
export function only(some: Partial<Record<'rows' | 'filed' | 'known' | 'corrected' | 'held' | 'refused' | 'released', number>>): object {
  return { rows: 0, filed: 0, known: 0, corrected: 0, held: 0, refused: 0, released: 0, ...some }
}

/** The review list as text. */
export async function listText(store: Store): Promise<string> {
  return JSON.stringify(granted(await listDocument(callOf(store), null)))
}

/** Serum M-protein values that count for a patient, oldest first, as received. */
export function valuesOf(store: Store, patientId = 'P1'): string[] {
  return store.reader.loadHistory(patientId)?.history.results.map((result) => result.provenance.valueText) ?? []
}
