import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import { type Call, type FindingView, openPatient, type PatientView } from '../../../lib/usecases/index.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, type Row, resultRow, take } from '../clinic.ts'

const ON = '2026-11-20'

/** A result of P1 of the last days. */
export function recent(code: string, value: string, unit: string, more: Row = {}): Row {
  return resultRow({ code, value, unit, collected_at: ON, accession: `${code} ${value}`, ...more })
}

const BEFORE = { collected_at: '2024-01-18' }

/** P1 in active disease with a fallen haemoglobin, and P2 of whom nothing but a creatinine is known. */
export async function takeDamaged(store: Store, more: readonly Row[] = []): Promise<void> {
  await take(store, [
    csv('patients.csv', [patientRow(), patientRow({ patient_id: 'P2' })]),
    csv('course.csv', courseRows()),
    csv('results.csv', [
      recent('718-7', '130', 'g/L', BEFORE),
      recent('14682-9', '80', 'umol/L', BEFORE),
      recent('718-7', '100', 'g/L'),
      recent('14682-9', '90', 'umol/L', { patient_id: 'P2' }),
      ...more,
    ]),
  ])
}

/** What a person sees of a patient. */
export async function seen(store: Store, patientId = 'P1', call: Call = callOf(store, 'physician')): Promise<PatientView> {
  return granted(await openPatient(call, patientId))
}

/** The current finding of a rule as a person sees it. */
export async function seenFinding(store: Store, rule: string, call?: Call): Promise<FindingView> {
  const { findings } = await seen(store, 'P1', call)
  const finding = findings.find((one) => one.rule === rule)
  if (finding === undefined) throw new Error(`${rule} was expected among ${findings.map((one) => one.rule).join(', ')}`)
  return finding
}

/** The stored result of P1 that reads so. */
export function resultId(store: Store, valueText: string, patientId = 'P1'): number {
  const found = store.reader.versionsOfPatient(patientId).find(({ result }) => result.provenance.valueText === valueText)
  if (found === undefined) throw new Error(`no result reads ${valueText}`)
  return found.result.id
}

/** Everything that would have to change if something were written: revisions, decisions, standings, and the log. */
export function written(store: Store): unknown {
  const { reader } = store
  return [reader.patientIds().map((id) => reader.loadHistory(id)), reader.standings(), reader.trailHead()]
}

export const as = (store: Store, role: Role, now?: string): Call => callOf(store, role, now)
