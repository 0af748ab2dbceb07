import type { Store } from '../../../lib/store/index.ts'
import { type Call, type FindingView, openPatient, type PatientView, recordReview } from '../../../lib/usecases/index.ts'
import { callOf, granted } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, type Row, resultRow, take } from '../clinic.ts'

/** The last sample of P1: serum M-protein of 36.0 g/L on 2026-11-03, up from 10.0, with changes. */
export function risen(changes: Row = {}): Row {
  return resultRow({ collected_at: '2026-11-03', value: '36.0', accession: 'R', laboratory: 'North', reported_at: '2026-11-04', ...changes })
}

export const RISEN = csv('original.csv', [risen()])
export const LOWERED = csv('correction.csv', [risen({ status: 'corrected', value: '10.5', reported_at: '2026-11-10' })])
export const RAISED = csv('second.csv', [risen({ status: 'corrected', value: '36.0', reported_at: '2026-11-12' })])
export const WITHDRAWN = csv('withdrawal.csv', [risen({ status: 'entered-in-error', value: '', unit: '', reported_at: '2026-11-14' })])
export const CANCELLED = csv('cancellation.csv', [risen({ status: 'cancelled', value: '', unit: '', reported_at: '2026-11-14' })])

function serum(collected_at: string, value: string): Row {
  return resultRow({ collected_at, value, accession: collected_at, laboratory: 'North', reported_at: collected_at })
}

/** P1 in active disease, serum M-protein down from 40 to 10 g/L and level since. */
export async function takeLevel(store: Store): Promise<void> {
  await take(store, [
    csv('patients.csv', [patientRow()]),
    csv('course.csv', courseRows()),
    csv('results.csv', [serum('2024-01-18', '40.0'), serum('2025-06-01', '10.0'), serum('2025-12-01', '10.0'), serum('2026-06-01', '10.0')]),
  ])
}

export const RULE = 'pd-serum'
export const GAP = 'reviewed-then-corrected'

export async function seen(store: Store, call: Call = callOf(store, 'physician')): Promise<PatientView> {
  return granted(await openPatient(call, 'P1'))
}

/** Current and past findings of a rule. */
export async function seenOf(store: Store, rule: string, call?: Call): Promise<{ current: FindingView[]; past: FindingView[] }> {
  const { findings, history } = await seen(store, call)
  return { current: findings.filter((one) => one.rule === rule), past: history.filter((one) => one.rule === rule) }
}

/** A nurse reviews the current finding of a rule. */
export async function review(store: Store, rule: string, note = 'Told the patient.', call: Call = callOf(store, 'navigator')): Promise<void> {
  const [finding] = (await seenOf(store, rule, call)).current
  if (finding === undefined) throw new Error(`${rule} is not current`)
  granted(await recordReview(call, { patientId: 'P1', rule, key: finding.key, note, bringBackOn: null }))
}

/** What corrections did to findings of P1, rule and kind of change, in order. */
export function changes(store: Store): string[] {
  return (store.reader.loadHistory('P1')?.history.changes ?? []).map(({ what, rule }) => `${what} ${rule}`)
}
