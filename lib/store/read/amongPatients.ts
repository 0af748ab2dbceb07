/** A condition that takes the numbers of many patients as one JSON text: on a server each question is a journey. */
export const AMONG = 'patient_id IN (SELECT value FROM json_each(?))'

/** The rows of each of these patients, in the order they came; none for a patient of whom there is none. */
export function byPatient<Row extends { readonly patientId: string }>(
  patientIds: readonly string[],
  rows: readonly Row[],
): ReadonlyMap<string, readonly Row[]> {
  const rowsOf = new Map<string, Row[]>(patientIds.map((patientId) => [patientId, []]))
  for (const row of rows) rowsOf.get(row.patientId)?.push(row)
  return rowsOf
}
