import { type RefusedFile, refusedFile } from './fileBytes.ts'
import { quoted } from './quoted.ts'

export type TableKind = 'patients' | 'course' | 'results'

const COLUMNS: Readonly<Record<TableKind, { readonly required: readonly string[]; readonly optional: readonly string[] }>> = {
  patients: {
    required: ['patient_id', 'birth_date', 'sex'],
    optional: ['family_name', 'given_name', 'weight_kg', 'clinician', 'status', 'status_on'],
  },
  course: {
    required: ['patient_id', 'on', 'event'],
    optional: [
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
    ],
  },
  results: {
    required: ['patient_id', 'collected_at', 'code', 'value'],
    optional: ['unit', 'status', 'accession', 'laboratory', 'method', 'reference_low', 'reference_high', 'reported_at'],
  },
}
const KINDS = ['patients', 'course', 'results'] as const satisfies readonly TableKind[]

/** How many columns of the header only this kind has as required ones. */
const ownColumns = (kind: TableKind, header: readonly string[]): number =>
  COLUMNS[kind].required.filter((column) => column !== 'patient_id' && header.includes(column)).length

/** Which table a header row begins, or why it begins none: a repeated, unknown or missing column is named. */
export function tableKind(header: readonly string[], fileName: string): TableKind | RefusedFile {
  // One pass: a file may be a single line of a million names.
  const seen = new Set<string>()
  const twice = header.find((column) => seen.size === seen.add(column).size)
  if (twice !== undefined && KINDS.some((kind) => ownColumns(kind, header) > 0)) {
    return refusedFile('duplicate-column', `${fileName} has the column ${quoted(twice)} twice; each may stand once.`)
  }
  const likely = KINDS.filter((kind) => ownColumns(kind, header) > 0).sort((a, b) => ownColumns(b, header) - ownColumns(a, header))
  const [kind, other] = likely
  const isUnclear = kind !== undefined && other !== undefined && ownColumns(kind, header) === ownColumns(other, header)
  if (kind === undefined || isUnclear) {
    const sentence = `The header of ${fileName} fits none of patients, course and results; it needs their column names, separated by commas.`
    return refusedFile('unknown-header', sentence)
  }
  const { required, optional } = COLUMNS[kind]
  const unknown = header.findIndex((column) => !required.includes(column) && !optional.includes(column))
  if (unknown >= 0) {
    const name = header[unknown] === '' ? `no name for column ${unknown + 1}` : `the unknown column ${quoted(header[unknown] ?? '')}`
    return refusedFile('unknown-column', `${fileName} has ${name}; a file of ${kind} may have ${[...required, ...optional].join(', ')}.`)
  }
  const missing = required.filter((column) => !header.includes(column))
  if (missing.length === 0) return kind
  return refusedFile('missing-column', `${fileName} has no column ${missing.join(', ')}; a file of ${kind} needs ${required.join(', ')}.`)
}
