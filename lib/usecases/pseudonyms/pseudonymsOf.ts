import type { Call, Outcome } from '../call.ts'
import { pseudonymKey } from './pseudonymKey.ts'
import { type Pseudonyms, pseudonyms } from './pseudonyms.ts'

/** The pseudonyms of this clinic: its key, and one pseudonym for records that are joined. `unavailable` without a key, with what to do about it. */
export function pseudonymsOf({ store }: Pick<Call, 'store'>): Outcome<Pseudonyms> {
  const read = pseudonymKey()
  if (!read.ok) return { ok: false, kind: 'unavailable', reason: read.reason }
  return { ok: true, value: pseudonyms(read.key, (patientId) => store.reader.keptId(patientId)) }
}
