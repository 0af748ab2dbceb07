import type { CourseEventOf, Patient } from '../results/index.ts'
import type { Day } from '../time/index.ts'

/**
 * The day the clinic stopped following the patient: the first recorded leaving. A patient recorded as followed on a later day has come
 * back. Where someone has left and no day is recorded, it is `today`: nothing is due any more, and no earlier day is guessed.
 */
export function leftOn(patient: Patient, leavings: readonly CourseEventOf<'left'>[], today: Day): Day | null {
  if (patient.status !== 'followed') {
    const days = [...leavings.map((event) => event.on), ...(patient.statusOn === null ? [] : [patient.statusOn])].sort()
    return days[0] ?? today
  }
  const { statusOn } = patient
  const days = leavings.map((event) => event.on).filter((on) => statusOn === null || on >= statusOn)
  return days.sort()[0] ?? null
}
