import { createHash } from 'node:crypto'
import type { TrailRow } from './row.ts'

function sorted(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(sorted)
  if (typeof value !== 'object' || value === null) return value
  return Object.fromEntries(
    Object.entries(value)
      .toSorted(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, part]) => [key, sorted(part)]),
  )
}

/** JSON with keys in order and no blanks: equal values give equal text. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(sorted(value))
}

/** SHA-256 (hexadecimal) of a value as canonical JSON: equal values have equal digests. */
export function canonicalSha256(value: unknown): string {
  return createHash('sha256').update(canonicalJson(value)).digest('hex')
}

/**
 * The text a row's hash is taken over: every field but the two hashes of the chain, in a fixed order, as one JSON array. The event stands in it
 * as the stored text, so that any change of that text shows.
 */
export function canonicalRow(row: Omit<TrailRow, 'previousHash' | 'hash'>): string {
  return JSON.stringify([
    row.sequence,
    row.at,
    row.actor,
    row.role,
    row.sessionHash,
    row.address,
    row.action,
    row.outcome,
    row.purpose,
    row.patientId,
    row.object,
    row.objectVersion,
    row.requestId,
    row.beforeHash,
    row.afterHash,
    row.event,
  ])
}
