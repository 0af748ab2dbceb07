import type { Calendar } from '../calendar.ts'
import type { Story } from '../follow/story.ts'

/** Columns of the patients file, in the order written. */
export const PATIENT_COLUMNS = [
  'patient_id',
  'family_name',
  'given_name',
  'birth_date',
  'sex',
  'weight_kg',
  'clinician',
  'status',
  'status_on',
] as const

export type PatientRow = Partial<Record<(typeof PATIENT_COLUMNS)[number], string>>

export function patientRow({ person, left }: Story, dayOf: Calendar): PatientRow {
  return {
    patient_id: person.id,
    family_name: person.familyName,
    given_name: person.givenName,
    birth_date: person.birthDate,
    sex: person.sex,
    weight_kg: person.weightKg === null ? '' : String(person.weightKg),
    clinician: person.clinician,
    status: left?.reason ?? 'followed',
    status_on: left === null ? '' : dayOf(left.on),
  }
}
