import { setTimeout as pause } from 'node:timers/promises'

/** Rows of one transaction at most, unless one patient alone has more: pages wait for it. */
const ROWS_A_PART = 200
/** Between two parts, so that whoever waits to write gets in. */
const PAUSE_MS = 30

function inParts<Row extends { readonly patientId: string | null }>(rows: readonly Row[]): Row[][] {
  const byPatient = new Map<string | null, Row[]>()
  for (const row of rows) {
    const some = byPatient.get(row.patientId)
    if (some === undefined) byPatient.set(row.patientId, [row])
    else some.push(row)
  }
  const parts: Row[][] = []
  for (const some of byPatient.values()) {
    const last = parts.at(-1)
    if (last === undefined || last.length + some.length > ROWS_A_PART) parts.push([...some])
    else last.push(...some)
  }
  return parts
}

/** The rows part by part, each for one transaction, with a pause between: all rows of a patient in one part and in their order, so that none is left half told. */
export async function* partsInTurn<Row extends { readonly patientId: string | null }>(rows: readonly Row[]): AsyncGenerator<readonly Row[]> {
  for (const [index, part] of inParts(rows).entries()) {
    if (index > 0) await pause(PAUSE_MS)
    yield part
  }
}
