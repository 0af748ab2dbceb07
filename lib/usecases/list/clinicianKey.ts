import { createHash } from 'node:crypto'

/** Stands for a clinician in an address, where no name may stand: the first ten digits of the name's SHA-256. */
export function clinicianKey(name: string): string {
  return createHash('sha256').update(name).digest('hex').slice(0, 10)
}
