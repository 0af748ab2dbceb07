import { PATIENT_STATUSES, type Patient } from '../results/index.ts'
import { agreedBirth, type Day, earliestBirthDay, parseBirthDate } from '../time/index.ts'
import type { Decimal } from '../units/index.ts'
import { dayIn } from './dateText.ts'
import { readNumber } from './numberText.ts'
import type { Interpreted, Problem } from './reason.ts'
import { field, freeText, isProblem, patientIdOf, type RawRow, rowProblem, wordOf } from './row.ts'
import { problem } from './sentences.ts'
import { WEIGHT_RANGE } from './valueRange.ts'

function weightOf(raw: RawRow): Decimal | null | Problem {
  const text = field(raw, 'weight_kg')
  if (text === '') return null
  const about = { column: 'weight_kg', text }
  const read = readNumber('weight_kg', text)
  if (isProblem(read)) return read
  if (read === null || read.comparator !== null) return problem('value-unreadable', about)
  if (read.value.lt(0)) return problem('negative', about)
  const { least, greatest } = WEIGHT_RANGE
  return read.value.lt(least) || read.value.gt(greatest) ? problem('out-of-range', { ...about, detail: '1 to 500 kg' }) : read.value
}

/** Years. A machine that has no date writes the first it knows, such as 0001-01-01; the oldest person known reached 122 years (from memory). */
const OLDEST = 130

/**
 * Reads a row of patients and completes it with what is known of the patient (null: a new one). An empty column says nothing and takes nothing away.
 * Another birth date or sex than the known one is held; a year of birth agrees with any day in it.
 */
export function interpretPatient(raw: RawRow, known: Patient | null, today: Day): Interpreted<Patient> {
  const failed = (found: Problem): Interpreted<Patient> => (found.outcome === 'held' ? { ...found, on: null } : found)
  const unreadable = rowProblem(raw, ['patient_id', 'birth_date', 'sex'])
  if (unreadable !== null) return failed(unreadable)
  const birthText = field(raw, 'birth_date')
  const told = parseBirthDate(birthText)
  const about = { column: 'birth_date', text: birthText }
  if (told === null) return failed(problem('bad-date', { ...about, detail: 'it needs a day, a month or a year, as in 1950-03-12, 1950-03 or 1950' }))
  if (earliestBirthDay(told) > today) return failed(problem('bad-date', { ...about, detail: `it lies after today, ${today}` }))
  if (Number(told.slice(0, 4)) < Number(today.slice(0, 4)) - OLDEST) {
    return failed(problem('bad-date', { ...about, detail: `it lies more than ${OLDEST} years back` }))
  }
  const sex = wordOf(raw, 'sex', ['female', 'male'] as const)
  if (isProblem(sex)) return failed(sex)
  if (sex === null) return failed(problem('missing-field', { column: 'sex', text: '' }))
  const status = wordOf(raw, 'status', PATIENT_STATUSES)
  if (isProblem(status)) return failed(status)
  const statusOn = dayIn(raw, 'status_on')
  if (isProblem(statusOn)) return failed(statusOn)
  const weightKg = weightOf(raw)
  if (isProblem(weightKg)) return failed(weightKg)
  if (raw.doubt) return failed(raw.doubt)
  const id = patientIdOf(raw)
  const before = known?.id === id ? known : null
  const birthDate = before === null ? told : agreedBirth(told, before.birthDate)
  if (birthDate === null) return failed(problem('birth-date-differs', { ...about, detail: before?.birthDate ?? '' }))
  if (before !== null && before.sex !== sex) return failed(problem('sex-differs', { column: 'sex', text: sex, detail: before.sex }))
  if (statusOn !== null && statusOn > today) return failed(problem('happened-in-future', { column: 'status_on', text: statusOn, detail: today }))
  if (statusOn !== null && statusOn < earliestBirthDay(birthDate)) {
    return failed(problem('happened-before-birth', { column: 'status_on', text: statusOn, detail: birthDate }))
  }
  const statusNow = status ?? before?.status ?? 'followed'
  return {
    outcome: 'take',
    value: {
      id,
      familyName: freeText(raw, 'family_name') ?? before?.familyName ?? null,
      givenName: freeText(raw, 'given_name') ?? before?.givenName ?? null,
      birthDate,
      sex,
      weightKg: weightKg ?? before?.weightKg ?? null,
      clinician: freeText(raw, 'clinician') ?? before?.clinician ?? null,
      status: statusNow,
      // A day belongs to its status: another status does not inherit it.
      statusOn: statusOn ?? (before?.status === statusNow ? before.statusOn : null),
    },
  }
}
