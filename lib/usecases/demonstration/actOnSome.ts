import type { Role } from '../../access/index.ts'
import type { Window } from '../../rules/index.ts'
import type { Call, Outcome } from '../call.ts'
import { openPatient } from '../patient/openPatient.ts'
import type { PatientView } from '../patientViews.ts'
import { DEMONSTRATION_NAMES } from './demonstrationNames.ts'

/** What a person of the demonstration does about some patients. */
export interface Acting {
  readonly role: Role
  /** About how many patients. */
  readonly count: number
  /** Only who stands there gives an occasion, and nobody else is opened for it; anybody may where it is left out. */
  readonly window?: Window
  /** Null where this patient gives no occasion. `nth` counts what was done, from 0. */
  readonly act: (view: PatientView, nth: number) => Promise<Outcome<unknown>> | null
}

export function as(call: Call, role: Role): Call {
  return { ...call, actor: { ...call.actor, name: DEMONSTRATION_NAMES[role], role } }
}

/** Does each in turn down the list, through the use cases like real people; one a patient at most, and nothing about `others`. Answers those and whom it was about. */
export async function actOnSome(call: Call, acts: readonly Acting[], others: ReadonlySet<string>): Promise<Outcome<ReadonlySet<string>>> {
  const standings = call.store.reader.standingsInOrder()
  const touched = new Set(others)
  for (const { role, count, window: wanted, act } of acts) {
    let made = 0
    for (const { patientId, window } of standings) {
      if (made === count) break
      if (touched.has(patientId) || (wanted !== undefined && window !== wanted)) continue
      const opened = await openPatient(as(call, role), patientId)
      if (!opened.ok) return opened
      const outcome = await act(opened.value, made)
      if (outcome === null) continue
      if (!outcome.ok) return outcome
      touched.add(patientId)
      made += 1
    }
  }
  return { ok: true, value: touched }
}
