import type { Call, Outcome } from '../call.ts'
import { pseudonymKey } from './pseudonymKey.ts'
import { pseudonyms } from './pseudonyms.ts'

/** Everybody's pseudonym, both ways. */
export interface Cohort {
  readonly of: (patientId: string) => string
  /** Whose it is; null where it is nobody's. */
  readonly patientIdOf: (pseudonym: string) => string | null
}

/**
 * The whole cohort by pseudonym. Two patients with one pseudonym (by chance once in 10^13 for 10,000 patients) are never shown as one: then nothing is
 * shown, and another key has to be made.
 */
export function cohortByPseudonym({ store }: Pick<Call, 'store'>): Outcome<Cohort> {
  const read = pseudonymKey()
  if (!read.ok) return { ok: false, kind: 'unavailable', reason: read.reason }
  // Records that are joined are not among the ids, so each is asked as it stands.
  return distinct(store.reader.patientIds(), pseudonyms(read.key).of)
}

/** Pseudonyms of all these patients; refused where two have the same. */
export function distinct(patientIds: readonly string[], of: (patientId: string) => string): Outcome<Cohort> {
  const pseudonymById = new Map(patientIds.map((id) => [id, of(id)]))
  const idByPseudonym = new Map([...pseudonymById].map(([id, pseudonym]) => [pseudonym, id]))
  if (idByPseudonym.size < pseudonymById.size) {
    const reason = 'Two patients have the same pseudonym under this key, so nobody is shown under one. The administrator has to make another key.'
    return { ok: false, kind: 'unavailable', reason }
  }
  return { ok: true, value: { of: (id) => pseudonymById.get(id) ?? of(id), patientIdOf: (pseudonym) => idByPseudonym.get(pseudonym) ?? null } }
}
