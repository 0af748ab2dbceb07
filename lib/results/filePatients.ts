import { decimalText } from '../units/index.ts'
import type { Patient } from './patient.ts'

/** What becomes of a patient row, with the fields it changes. */
export type PatientFiling = { readonly outcome: 'filed' | 'known' } | { readonly outcome: 'corrected'; readonly changed: readonly (keyof Patient)[] }

const FIELDS = [
  'familyName',
  'givenName',
  'birthDate',
  'sex',
  'weightKg',
  'clinician',
  'status',
  'statusOn',
] as const satisfies readonly (keyof Patient)[]

const fieldText = (patient: Patient, field: (typeof FIELDS)[number]): string | null =>
  field === 'weightKg' ? (patient.weightKg === null ? null : decimalText(patient.weightKg)) : patient[field]

/**
 * Compares a patient as now told, already completed with what was known, with the patient as stored. Patient rows carry no report time, so the row
 * that arrives last counts: taking a wrongly recorded death back must not be mistaken for an old row sent again.
 */
export function decidePatientFiling(incoming: Patient, known: Patient | null): PatientFiling {
  if (known === null) return { outcome: 'filed' }
  const changed = FIELDS.filter((field) => fieldText(incoming, field) !== fieldText(known, field))
  return changed.length === 0 ? { outcome: 'known' } : { outcome: 'corrected', changed }
}
