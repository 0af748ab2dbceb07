import type { RawRow, RowFields } from '../row.ts'
import { withoutDoubtAbout } from '../unclear.ts'
import { asSourceMeans, type MeantRow } from './asSourceMeans.ts'
import type { SourceKnowledge } from './knowledge.ts'

const KIND_OF: Readonly<Record<string, 'code' | 'unit' | 'patient'>> = { code: 'code', unit: 'unit', patient_id: 'patient' }

/**
 * Reads a row as received with what is known of its source and with what a person decided of this row alone (columns and their meaning; null:
 * nothing). The decision of a person about the row goes before a mapping of its source, and settles what its reader found unclear in that column.
 */
export function asDecided(raw: RawRow, knowledge: SourceKnowledge, decided: RowFields | null): MeantRow {
  if (decided === null) return asSourceMeans(raw, knowledge)
  const settled = new Set(Object.keys(decided).map((column) => KIND_OF[column]))
  const overlaid = (read: RawRow): RawRow => {
    const fields: RowFields = Object.assign(Object.create(null), read.fields, decided)
    return {
      ...read,
      fields: Object.keys(decided).reduce<RowFields>((left, column) => withoutDoubtAbout(column, left), fields),
      received: raw.received ?? raw.fields,
    }
  }
  return asSourceMeans(raw, { ...knowledge, mappings: knowledge.mappings.filter(({ kind }) => !settled.has(kind)) }, overlaid)
}
