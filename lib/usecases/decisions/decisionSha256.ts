import type { Decision } from '../../results/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'

/** SHA-256 (hexadecimal) of a decision as it is kept with a record: the log carries it, so that a decision changed afterwards shows. */
export function decisionSha256(patientId: string, decision: Decision): string {
  return canonicalSha256({ patientId, ...decision })
}
