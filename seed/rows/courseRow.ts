/** Columns of the course file, in the order written. */
export const COURSE_COLUMNS = [
  'patient_id',
  'on',
  'event',
  'phase',
  'heavy_chain',
  'light_chain',
  'line',
  'regimen',
  'intent',
  'modality',
  'lytic_lesions',
  'focal_lesions_5mm',
  'new_lesions',
  'growth_percent',
  'plasma_cells_percent',
  'abnormalities',
  'mrd',
  'reason',
] as const

type Cells = Partial<Record<Exclude<(typeof COURSE_COLUMNS)[number], 'patient_id' | 'on' | 'event'>, string>>

/** One event of a course; `on` counts from the cohort's last day. Cells left out are empty. */
export interface CoursePiece extends Cells {
  readonly on: number
  readonly event: 'diagnosis' | 'phase' | 'line-start' | 'line-end' | 'imaging' | 'marrow' | 'bone-agent' | 'left'
}
