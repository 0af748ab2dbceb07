import type { Patient } from '../../results/index.ts'
import type { Reader } from '../../store/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'

const identityOf = ({ id, familyName, givenName, birthDate, sex }: Patient) => ({ id, familyName, givenName, birthDate, sex })

/**
 * SHA-256 (hexadecimal) of what identifies two records and all that are joined to them: a merge is confirmed on the identity it was proposed on, or
 * proposed anew.
 */
export function identitySha256(reader: Pick<Reader, 'patient' | 'joinedIds'>, fromId: string, intoId: string): string {
  const identities = [fromId, intoId].map((id) => [id, ...reader.joinedIds(id)].flatMap((one) => reader.patient(one)?.patient ?? []).map(identityOf))
  return canonicalSha256(identities)
}
