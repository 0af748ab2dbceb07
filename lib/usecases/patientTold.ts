import type { Call, Outcome } from './call.ts'
import { pseudonymsOf } from './pseudonyms/pseudonymsOf.ts'

/** A patient's pseudonym. */
export type PseudonymOf = (patientId: string) => string

/** The pseudonyms of this clinic; null while it has no key, and then quality is not told whom something concerns. */
function clinicPseudonyms(call: Call): PseudonymOf | null {
  const read = pseudonymsOf(call)
  return read.ok ? read.value.of : null
}

/** Why whoever asks can be told of nobody: quality, while the clinic's key cannot be read. Null where they can; asked before anything is entered as shown. */
export function notTold(call: Call): Extract<Outcome<never>, { ok: false }> | null {
  if (call.actor.role !== 'quality') return null
  const read = pseudonymsOf(call)
  return read.ok ? null : read
}

/** How a patient is named to whoever asks: quality works under pseudonyms, everybody else reads the number. */
export function patientTold(call: Call, given = clinicPseudonyms): (patientId: string) => string {
  if (call.actor.role !== 'quality') return (patientId) => patientId
  return given(call) ?? (() => 'patient not named here')
}

/** Whom somebody means by what they typed, the same way round: the record that is kept; null where it is nobody. */
export function patientMeant(call: Call, typed: string, given = clinicPseudonyms): string | null {
  const { reader } = call.store
  const sought = typed.trim()
  if (call.actor.role !== 'quality') return reader.patient(sought) === null ? null : reader.keptId(sought)
  const pseudonymOf = given(call)
  if (pseudonymOf === null) return null
  return reader.patientIds().find((patientId) => pseudonymOf(patientId) === sought.toUpperCase()) ?? null
}
