import Database from 'better-sqlite3'

/** Serum M-protein of everybody in two arrays: hundredths of a g/L of each window of comparison, one after the other, and where each patient's begins. */
export interface InArrays {
  readonly ids: readonly string[]
  readonly values: Int32Array
  readonly begins: Int32Array
}

const SERUM = `WITH line AS (
    SELECT patient_id, max(on_day) AS began FROM course_event WHERE current = 1 AND event = 'line-start' GROUP BY patient_id)
  SELECT result.patient_id AS id, CAST(round(kept_low * 100) AS INTEGER) AS value, julianday(collected_on) - julianday(began) AS after
  FROM result JOIN line ON line.patient_id = result.patient_id
  WHERE current = 1 AND status NOT IN ('cancelled', 'entered-in-error') AND analyte = 'serum-m-protein' AND kind = 'number'
  ORDER BY result.patient_id, collected_on`

interface Row {
  readonly id: string
  readonly value: number
  readonly after: number
}

/** Where the window of a patient's samples opens: the last at most 60 days before the line, else the first at most 7 days after. */
function opens(samples: readonly Row[]): number {
  const before = samples.findLastIndex(({ after }) => after <= 0)
  if (before >= 0 && (samples[before]?.after ?? 0) >= -60) return before
  const after = samples[before + 1]
  return after !== undefined && after.after <= 7 ? before + 1 : samples.length
}

/** Reads the samples out of the database, which is no part of what is measured. */
export function inArrays(path: string): InArrays {
  const db = new Database(path, { readonly: true })
  const of = new Map<string, Row[]>()
  for (const row of db.prepare<[], Row>(SERUM).iterate()) {
    const own = of.get(row.id)
    if (own === undefined) of.set(row.id, [row])
    else own.push(row)
  }
  db.close()
  const ids = [...of.keys()]
  const windows = ids.map((id) => (of.get(id) ?? []).slice(opens(of.get(id) ?? [])))
  const begins = new Int32Array(ids.length + 1)
  for (const [at, window] of windows.entries()) begins[at + 1] = (begins[at] ?? 0) + window.length
  return { ids, values: Int32Array.from(windows.flatMap((window) => window.map(({ value }) => value))), begins }
}

/** The rule over the arrays alone: the least a machine has to do. Answers the places of the patients who show it. */
export function risesInArrays({ ids, values, begins }: InArrays): number[] {
  const found: number[] = []
  for (let patient = 0; patient < ids.length; patient++) {
    const [from, last] = [begins[patient] as number, (begins[patient + 1] as number) - 1]
    if (last <= from) continue
    let lowest = values[from] as number
    for (let at = from + 1; at < last; at++) lowest = Math.min(lowest, values[at] as number)
    const rise = (values[last] as number) - lowest
    if ((rise >= 500 && 4 * rise >= lowest) || (lowest >= 5000 && rise >= 1000)) found.push(patient)
  }
  return found
}
