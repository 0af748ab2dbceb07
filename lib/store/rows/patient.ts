import type { Patient, PatientStatus, Sex } from '../../results/index.ts'
import type { BirthDate, Day } from '../../time/index.ts'
import { decimalOrNull, textOrNull } from './decimals.ts'

/** The columns of `patient` that say who it is. */
export interface PatientColumns {
  readonly id: string
  readonly family_name: string | null
  readonly given_name: string | null
  readonly birth_date: string
  readonly sex: string
  readonly weight_kg: string | null
  readonly clinician: string | null
  readonly status: string
  readonly status_on: string | null
}

/** All of them, in the order a new row binds them. */
export const PATIENT_COLUMNS = [
  'id',
  'family_name',
  'given_name',
  'birth_date',
  'sex',
  'weight_kg',
  'clinician',
  'status',
  'status_on',
] as const satisfies readonly (keyof PatientColumns)[]

/** A patient with how often the history changed (`revision`) and which version of the patient's own row this is. */
export interface StoredPatient {
  readonly patient: Patient
  readonly revision: number
  readonly version: number
}

export type StoredPatientColumns = PatientColumns & { readonly revision: number; readonly version: number }

export function patientColumns(patient: Patient): PatientColumns {
  return {
    id: patient.id,
    family_name: patient.familyName,
    given_name: patient.givenName,
    birth_date: patient.birthDate,
    sex: patient.sex,
    weight_kg: textOrNull(patient.weightKg),
    clinician: patient.clinician,
    status: patient.status,
    status_on: patient.statusOn,
  }
}

export function storedPatient(row: StoredPatientColumns): StoredPatient {
  const patient: Patient = {
    id: row.id,
    familyName: row.family_name,
    givenName: row.given_name,
    birthDate: row.birth_date as BirthDate,
    sex: row.sex as Sex,
    weightKg: decimalOrNull(row.weight_kg),
    clinician: row.clinician,
    status: row.status as PatientStatus,
    statusOn: row.status_on as Day | null,
  }
  return { patient, revision: row.revision, version: row.version }
}
