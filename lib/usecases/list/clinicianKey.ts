import { createHash } from 'node:crypto'

/** Stands for a clinician in an address, where no name may stand: the first ten digits of the name's SHA-256. */
export function clinicianKey(name: string): string {
  return createHash('sha256').update(name).digest('hex').slice(0, 10)
}

/**
 * Whom a list is narrowed to by a key; null where none is asked for. A key that is nobody's filters everybody out rather than nobody: a wrong bookmark must
 * not look like the whole list.
 */
export function clinicianUnder(names: readonly string[], key: string | null): string | null {
  return key === null ? null : (names.find((name) => clinicianKey(name) === key) ?? '')
}
