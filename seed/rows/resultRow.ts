/** Columns of a results file, in the order written. */
export const RESULT_COLUMNS = [
  'patient_id',
  'collected_at',
  'code',
  'value',
  'unit',
  'status',
  'accession',
  'laboratory',
  'method',
  'reference_low',
  'reference_high',
  'reported_at',
] as const

/** One result; cells left out are empty. */
export type ResultRow = Partial<Record<(typeof RESULT_COLUMNS)[number], string>>
