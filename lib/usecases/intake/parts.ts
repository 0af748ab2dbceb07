import { correctsRow, type OpenTable, patientIdOf } from '../../intake/index.ts'

/** Rows of one part at most, unless one patient alone has more: what is taken in within a fraction of a second, so that pages never wait long for it. */
export const ROWS_A_PART = 2_000

type Readable = Extract<OpenTable, { ok: true }>

/** Of each row its patient, by a number in the order in which patients are filed, and whether it is a correction. */
function patientsOf(table: Readable, onRow: (done: number) => void) {
  const patients = new Map<string, number>()
  const patientAt = new Uint32Array(table.count)
  const correctsAt = new Uint8Array(table.count)
  let place = 0
  for (const raw of table.rows()) {
    const id = patientIdOf(raw)
    const known = patients.get(id) ?? patients.size
    if (known === patients.size) patients.set(id, known)
    patientAt[place] = known
    correctsAt[place] = correctsRow(raw) ? 1 : 0
    onRow(++place)
  }
  return { patients: patients.size, patientAt, correctsAt }
}

/** Places in the order in which their rows are filed, and how many of them each patient has, patients in that order too. */
function filingOrder(table: Readable, onRow: (done: number) => void): { readonly order: Uint32Array; readonly sizes: readonly number[] } {
  const { patients, patientAt, correctsAt } = patientsOf(table, onRow)
  const inTurn = (each: (place: number, patient: number) => void): void => {
    for (const wanted of [0, 1]) {
      for (let place = 0; place < table.count; place++) if (correctsAt[place] === wanted) each(place, patientAt[place] ?? 0)
    }
  }
  const rank = new Int32Array(patients).fill(-1)
  const sizes: number[] = []
  inTurn((_place, patient) => {
    if (rank[patient] === -1) rank[patient] = sizes.push(0) - 1
    const at = rank[patient] ?? 0
    sizes[at] = (sizes[at] ?? 0) + 1
  })
  const next = new Uint32Array(patients)
  for (let at = 1; at < patients; at++) next[at] = (next[at - 1] ?? 0) + (sizes[at - 1] ?? 0)
  const order = new Uint32Array(table.count)
  inTurn((place, patient) => {
    const at = rank[patient] ?? 0
    order[next[at] ?? 0] = place
    next[at] = (next[at] ?? 0) + 1
  })
  return { order, sizes }
}

/**
 * The places of all rows in parts that can be kept one after the other: all rows about one patient are in one part, so that no part leaves a patient
 * half told; of a patient originals before corrections, so that the order of rows within a file decides nothing. At least one part, so that a file
 * without rows is kept too. Reads every row once and keeps a few bytes of each. `onRow` is told how many were read.
 */
export function inParts(table: Readable, onRow: (done: number) => void, most = ROWS_A_PART): readonly Uint32Array[] {
  const { order, sizes } = filingOrder(table, onRow)
  const parts: Uint32Array[] = []
  let [begin, end] = [0, 0]
  for (const size of sizes) {
    if (end > begin && end - begin + size > most) {
      parts.push(order.subarray(begin, end))
      begin = end
    }
    end += size
  }
  parts.push(order.subarray(begin, end))
  return parts
}
