import type { Role } from '../../../lib/access/index.ts'
import type { Store } from '../../../lib/store/index.ts'
import type { Call } from '../../../lib/usecases/index.ts'
import { callOf, NOW } from '../accounts/persons.ts'
import { courseRows, csv, patientRow, resultRow, take } from '../clinic.ts'

export const REASON = 'Seen tonight in the emergency room'

/** Somebody's call in a session of their own, in the browser. */
export function inSession(store: Store, role: Role, now = NOW, session = `session of a ${role}`): Call {
  const call = callOf(store, role, now)
  return { ...call, actor: { ...call.actor, sessionHash: session } }
}

/** P1 is followed; P2 died on 1 November, and is of an M-protein of 31.7 g/L that nobody else has. */
export async function takeClosed(store: Store): Promise<void> {
  const died = patientRow({ patient_id: 'P2', family_name: 'Hazel', status: 'died', status_on: '2026-11-01' })
  await take(store, [
    csv('patients.csv', [{ ...patientRow(), family_name: '', status: '', status_on: '' }, died]),
    csv('course.csv', [...courseRows(), ...courseRows('P2')]),
    csv('results.csv', [resultRow(), resultRow({ patient_id: 'P2', value: '31.7', accession: 'A2' })]),
  ])
}
