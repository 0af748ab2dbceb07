import { interpretPatient, interpretResult, type MeantRow, type RawRow } from '../../intake/index.ts'
import { decideFiling, type Patient } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { ReadRow } from './readRow.ts'

/** Whom a row of results names, where it gives a birth date and a sex that can be read; null where it does not. */
function patientNamed({ fields: { patient_id = '', birth_date = '', sex = '' }, line, text }: RawRow, today: Day): Patient | null {
  const read = interpretPatient({ kind: 'patients', line, text, fields: { patient_id, birth_date, sex }, refusal: null }, null, today)
  return read.outcome === 'take' ? read.value : null
}

/**
 * The patient a row of results brings with it: nobody is known by its identifier, its source is trusted to add patients, and nothing else keeps the row
 * from being filed. A withdrawn or cancelled result brings nobody. Null otherwise.
 */
export function patientToAdd({ raw, addsPatients }: MeantRow, { read }: ReadRow, today: Day): Patient | null {
  if (!addsPatients || raw.kind !== 'results' || read.outcome !== 'held' || read.reason !== 'unknown-patient') return null
  const patient = patientNamed(raw, today)
  const result = patient === null ? null : interpretResult(raw, patient, today)
  if (result?.outcome !== 'take' || result.value.status === 'cancelled') return null
  return decideFiling(result.value, []).outcome === 'filed' ? patient : null
}
