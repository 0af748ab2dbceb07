import type { PatientsTold } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { pseudonymsOf } from '../pseudonyms/pseudonymsOf.ts'

/** How the reader of an exported log is told whom an entry concerns: quality by pseudonym, everybody else by number (access.md). */
export function patientsToldTo(call: Call): Outcome<PatientsTold> {
  if (call.actor.role !== 'quality') return { ok: true, value: { as: 'numbers' } }
  const under = pseudonymsOf(call)
  return under.ok ? { ok: true, value: { as: 'pseudonyms', of: under.value.of } } : under
}
