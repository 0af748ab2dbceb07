import type { Permission } from '../../access/index.ts'
import type { Course } from '../../course/index.ts'
import type { Call, Outcome } from '../call.ts'

type Refusal = Extract<Outcome<never>, { ok: false }>

/** Who is followed is the review list's own answer: nobody has left, or a later row of the patients file says they came back. */
export function isClosed({ leftOn }: Pick<Course, 'leftOn'>): boolean {
  return leftOn !== null
}

/** Why a closed record is not shown or changed. Says since when, and nothing else of the patient. */
export function closedRefusal({ patient, leftOn, today }: Pick<Course, 'patient' | 'leftOn' | 'today'>): Refusal {
  const isDayKnown = leftOn !== null && (leftOn !== today || patient.statusOn !== null || patient.status === 'followed')
  const since = isDayKnown ? `This record is closed since ${leftOn}` : 'This record is closed, since a day nobody recorded'
  const reason = `${since}: the patient is no longer followed here. A physician can open it as an emergency view, for reading only.`
  return { ok: false, kind: 'not-allowed', reason, closed: true }
}

/** Writes down that somebody was refused a closed record, and whose. */
export async function logClosedRefusal(call: Call, permission: Permission, patientId: string): Promise<void> {
  const event = { action: 'access-refused', permission, object: 'a closed record', patientId } as const
  await call.store.record(call, () => ({ value: null, events: [event] }))
}
