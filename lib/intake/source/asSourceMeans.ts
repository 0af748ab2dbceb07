import { field, type RawRow, type RowFields } from '../row.ts'
import { withoutCodeDoubt } from '../unclear.ts'
import { asWritten } from './asWritten.ts'
import type { SourceKnowledge, SourceMapping, SourceProfile } from './knowledge.ts'

/** A row as its source means it, and the mappings that made it so. Its `received` fields are those of the file. */
export interface MeantRow {
  readonly raw: RawRow
  readonly mappings: readonly number[]
  /** Whether its source is trusted to add the patient of a result where nobody is known by the identifier. */
  readonly addsPatients: boolean
}

type Found = { readonly column: string; readonly mapping: SourceMapping }

const NONE: readonly never[] = []

function mappingsOf(raw: RawRow, { mappings }: SourceKnowledge): readonly Found[] {
  if (mappings.length === 0) return NONE
  const of = (kind: SourceMapping['kind'], column: string, ofCode: string | null): Found[] => {
    const received = field(raw, column)
    const mapping = received === '' ? undefined : mappings.find((one) => one.kind === kind && one.received === received && one.ofCode === ofCode)
    return mapping === undefined ? [] : [{ column, mapping }]
  }
  const patient = of('patient', 'patient_id', null)
  return raw.kind === 'results' ? [...patient, ...of('code', 'code', null), ...of('unit', 'unit', field(raw, 'code'))] : patient
}

/** The row with some of its texts replaced, and what it said before. */
function replaced(raw: RawRow, changes: RowFields): RawRow {
  const fields: Record<string, string> = Object.assign(Object.create(null), raw.fields, changes)
  return { ...raw, fields, received: raw.received ?? raw.fields }
}

function mapped(raw: RawRow, found: readonly Found[]): RawRow {
  if (found.length === 0) return raw
  const read = replaced(raw, Object.fromEntries(found.map(({ column, mapping }) => [column, mapping.meaning])))
  return found.some(({ mapping }) => mapping.kind === 'code') ? { ...read, fields: withoutCodeDoubt(read.fields) } : read
}

function written(raw: RawRow, codeReceived: string, profile: SourceProfile | null): RawRow {
  if (profile === null || raw.refusal !== null) return raw
  const { changes, doubt, refusal } = asWritten(raw, codeReceived, profile)
  const read = Object.keys(changes).length === 0 ? raw : replaced(raw, changes)
  return doubt === null && refusal === null ? read : { ...read, doubt, refusal }
}

/**
 * Reads a row as received with what is known of its source: mapped texts are replaced by their meaning, then the profile says what they leave unsaid.
 * What the row says itself is never overruled. The same row where nothing is known. `overlaid` puts in what a person decided of it, before the profile.
 */
export function asSourceMeans(raw: RawRow, knowledge: SourceKnowledge, overlaid: (read: RawRow) => RawRow = (read) => read): MeantRow {
  const found = mappingsOf(raw, knowledge)
  const { profile } = knowledge
  const read = written(overlaid(mapped(raw, found)), field(raw, 'code'), profile)
  return { raw: read, mappings: found.length === 0 ? NONE : found.map(({ mapping }) => mapping.id), addsPatients: profile?.addsPatients ?? false }
}
