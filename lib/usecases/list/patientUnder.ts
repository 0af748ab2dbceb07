import type { Call, Outcome } from '../call.ts'
import { cohortByPseudonym } from '../pseudonyms/cohortByPseudonym.ts'

/** Matches no patient number. */
const NOBODY = ''

/** Whom a list is narrowed to by a pseudonym quality gave; null where none is asked for, nobody's number where it is nobody's. `unavailable` without a key. */
export function patientUnder(call: Pick<Call, 'store'>, pseudonym: string | null | undefined): Outcome<string | null> {
  if (pseudonym === null || pseudonym === undefined) return { ok: true, value: null }
  const cohort = cohortByPseudonym(call)
  return cohort.ok ? { ok: true, value: cohort.value.patientIdOf(pseudonym.toUpperCase()) ?? NOBODY } : cohort
}
