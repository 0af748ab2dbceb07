import { createHash } from 'node:crypto'
import type { Decision } from '../../results/index.ts'
import { canonicalJson } from '../../trail/index.ts'

/** SHA-256 (hexadecimal) of a decision as it is kept with a record: the log carries it, so that a decision changed afterwards shows. */
export function decisionSha256(patientId: string, decision: Decision): string {
  return createHash('sha256')
    .update(canonicalJson({ patientId, ...decision }))
    .digest('hex')
}
