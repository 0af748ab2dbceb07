import type { Patient } from '../results/index.ts'
import { type Day, earliestBirthDay } from '../time/index.ts'
import type { HeldReason, Problem } from './reason.ts'
import { problem } from './sentences.ts'

type Verb = 'collected' | 'happened'
type When = 'in-future' | 'before-birth' | 'after-death'

function held(verb: Verb, when: When, about: { readonly column: string; readonly text: string; readonly detail: string }): Problem {
  return problem(`${verb}-${when}` satisfies HeldReason, about)
}

/** Whether a day lies in the patient's life and not after today; the problem where it does not. A birth known by its year begins on its first day. */
export function lifetimeProblem(verb: Verb, column: string, text: string, on: Day, patient: Patient, today: Day): Problem | null {
  const { birthDate, status, statusOn } = patient
  if (on > today) return held(verb, 'in-future', { column, text, detail: today })
  if (on < earliestBirthDay(birthDate)) return held(verb, 'before-birth', { column, text, detail: birthDate })
  if (status === 'died' && statusOn !== null && on > statusOn) return held(verb, 'after-death', { column, text, detail: statusOn })
  return null
}
