import type { Patient } from '../results/index.ts'
import { type Day, earliestBirthDay } from '../time/index.ts'
import type { HeldReason, Problem } from './reason.ts'
import { problem } from './sentences.ts'

/** Whether a day lies in the patient's life and not after today; the problem where it does not. A birth known by its year begins on its first day. */
export function lifetimeProblem(verb: 'collected' | 'happened', column: string, text: string, on: Day, patient: Patient, today: Day): Problem | null {
  const held = (when: 'in-future' | 'before-birth' | 'after-death', detail: string): Problem =>
    problem(`${verb}-${when}` satisfies HeldReason, { column, text, detail })
  if (on > today) return held('in-future', today)
  if (on < earliestBirthDay(patient.birthDate)) return held('before-birth', patient.birthDate)
  if (patient.status === 'died' && patient.statusOn !== null && on > patient.statusOn) return held('after-death', patient.statusOn)
  return null
}
