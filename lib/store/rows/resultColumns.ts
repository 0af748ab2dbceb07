/** The columns of `result`, as the table names them. */
export interface ResultColumns {
  readonly id: number
  readonly patient_id: string
  readonly identity: string
  readonly version: number
  readonly current: number
  readonly code: string
  readonly analyte: string
  readonly collected_at: string
  readonly collected_on: string
  readonly collected_order: number
  readonly status: string
  readonly kind: string
  readonly comparator: string | null
  readonly kept_low: string | null
  readonly kept_high: string | null
  readonly printed_low: string | null
  readonly printed_high: string | null
  readonly printed_unit: string | null
  readonly reading: string | null
  readonly none_reason: string | null
  readonly up_to: string | null
  readonly accession: string | null
  readonly laboratory: string | null
  readonly method: string | null
  readonly reference_low_kept: string | null
  readonly reference_low_printed: string | null
  readonly reference_high_kept: string | null
  readonly reference_high_printed: string | null
  readonly reported_at: string | null
  readonly value_text: string
  readonly unit_text: string
  readonly file_id: number
  readonly line: number
}

/** Everything but `id`, in the order a new row binds them. */
export const RESULT_COLUMNS = [
  'patient_id',
  'identity',
  'version',
  'current',
  'code',
  'analyte',
  'collected_at',
  'collected_on',
  'collected_order',
  'status',
  'kind',
  'comparator',
  'kept_low',
  'kept_high',
  'printed_low',
  'printed_high',
  'printed_unit',
  'reading',
  'none_reason',
  'up_to',
  'accession',
  'laboratory',
  'method',
  'reference_low_kept',
  'reference_low_printed',
  'reference_high_kept',
  'reference_high_printed',
  'reported_at',
  'value_text',
  'unit_text',
  'file_id',
  'line',
] as const satisfies readonly (keyof ResultColumns)[]
