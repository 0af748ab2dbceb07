import type { Understood } from './readRow.ts'

/** Rows of one part at most, unless one patient alone has more: what is taken in within a fraction of a second, so that pages never wait long for it. */
export const ROWS_A_PART = 2_000

/**
 * The rows in parts that can be kept one after the other: all rows about one patient are in one part, in their order, so that no part leaves a
 * patient half told. At least one part, so that a file without rows is kept too.
 */
export function inParts(read: readonly Understood[], most = ROWS_A_PART): readonly (readonly Understood[])[] {
  const byPatient = new Map<string, Understood[]>()
  for (const row of read) {
    const rows = byPatient.get(row.patientId)
    if (rows === undefined) byPatient.set(row.patientId, [row])
    else rows.push(row)
  }
  const parts: Understood[][] = [[]]
  for (const rows of byPatient.values()) {
    const last = parts.at(-1)
    if (last === undefined || (last.length > 0 && last.length + rows.length > most)) parts.push([...rows])
    else for (const row of rows) last.push(row)
  }
  return parts
}
