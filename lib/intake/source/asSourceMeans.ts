import { field, type RawRow, type RowFields } from '../row.ts'
import { withoutCodeDoubt } from '../unclear.ts'
import type { SourceKnowledge, SourceMapping } from './knowledge.ts'

/** A row as its source means it, and the mappings that made it so. Its `received` fields are those of the file. */
export interface MeantRow {
  readonly raw: RawRow
  readonly mappings: readonly number[]
}

type Found = { readonly column: string; readonly mapping: SourceMapping }

function mappingsOf(raw: RawRow, { mappings }: SourceKnowledge): readonly Found[] {
  if (mappings.length === 0) return []
  const of = (kind: SourceMapping['kind'], column: string, ofCode: string | null): Found[] => {
    const received = field(raw, column)
    const mapping = received === '' ? undefined : mappings.find((one) => one.kind === kind && one.received === received && one.ofCode === ofCode)
    return mapping === undefined ? [] : [{ column, mapping }]
  }
  const patient = of('patient', 'patient_id', null)
  return raw.kind === 'results' ? [...patient, ...of('code', 'code', null), ...of('unit', 'unit', field(raw, 'code'))] : patient
}

/**
 * Reads a row as received with what is known of its source: mapped texts are replaced by their meaning. What the row says itself is never
 * overruled. The same row where nothing is known.
 */
export function asSourceMeans(raw: RawRow, knowledge: SourceKnowledge): MeantRow {
  const found = mappingsOf(raw, knowledge)
  if (found.length === 0) return { raw, mappings: [] }
  const fields: Record<string, string> = Object.assign(Object.create(null), raw.fields)
  for (const { column, mapping } of found) fields[column] = mapping.meaning
  const isCodeMapped = found.some(({ mapping }) => mapping.kind === 'code')
  const read: RowFields = isCodeMapped ? withoutCodeDoubt(fields) : fields
  return { raw: { ...raw, fields: read, received: raw.fields }, mappings: found.map(({ mapping }) => mapping.id) }
}
