import type { CourseChange } from '../../results/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'

/** SHA-256 (hexadecimal) of a change of the course as it is kept with a record: the log carries it, so that one altered afterwards shows. */
export function courseChangeSha256(patientId: string, { told, ...change }: CourseChange): string {
  return canonicalSha256({ patientId, ...change, told: told.map((event) => JSON.stringify(event)) })
}
