import { compactText } from '../json/compactText.ts'
import type { JsonObject } from '../json/json.ts'
import type { RefusedReason, RefusedRow } from '../reason.ts'
import type { RawRow, RowFields } from '../row.ts'
import { type About, problem } from '../sentences.ts'
import type { TableKind } from '../tableKind.ts'
import { changedMeaning } from './changedMeaning.ts'
import { BadElement, objectsAt, objectsIfAny, textAt, textIfAny } from './element.ts'
import type { FhirEntry } from './entry.ts'
import type { FileIndex } from './fileIndex.ts'
import { observationRows } from './observationRows.ts'
import { patientFields, whyNotInUse } from './patientFields.ts'
import { PatientUnclear } from './patientId.ts'
import { meansContained } from './reference.ts'

type Row = Pick<RawRow, 'kind' | 'fields' | 'refusal'>

const refused = (kind: TableKind, reason: RefusedReason, about: Partial<About>): Row => ({
  kind,
  fields: {},
  refusal: problem(reason, { column: '', text: '', ...about }) as RefusedRow,
})
const taken = (kind: TableKind, fields: RowFields): Row => ({ kind, fields, refusal: null })

/** The rows `make` answers; one refused row where the resource is not what FHIR has, or not certainly about one person. */
function madeOr(kind: TableKind, make: () => readonly Row[]): readonly Row[] {
  try {
    return make()
  } catch (error) {
    if (error instanceof BadElement) return [refused(kind, 'bad-element', { column: error.element, detail: error.needs })]
    if (error instanceof PatientUnclear) return [refused(kind, 'subject-unclear', { detail: error.message })]
    throw error
  }
}

function patientRow(resource: JsonObject): Row {
  const why = whyNotInUse(resource)
  return why === '' ? taken('patients', patientFields(resource)) : refused('patients', 'record-not-in-use', { detail: why })
}

function rowsOfObservation(observation: JsonObject, within: JsonObject, report: JsonObject | null, index: FileIndex): readonly Row[] {
  return observationRows({ observation, within, report, index }).map((fields) => taken('results', fields))
}

const containedObservations = (resource: JsonObject): readonly JsonObject[] =>
  objectsIfAny(resource, 'contained').filter((one) => textIfAny(one, 'resourceType') === 'Observation')

/** Observations a resource contains, each a result of its own. */
function containedRows(resource: JsonObject, index: FileIndex): readonly Row[] {
  const references = objectsIfAny(textIfAny(resource, 'resourceType') === 'DiagnosticReport' ? resource : null, 'result')
  const isNamed = (one: JsonObject) => references.some((reference) => meansContained(textIfAny(reference, 'reference'), one))
  return containedObservations(resource).flatMap((one) =>
    madeOr('results', () => rowsOfObservation(one, resource, isNamed(one) ? resource : null, index)),
  )
}

function groupRow(resource: JsonObject, index: FileIndex): Row {
  const references = [...objectsAt(resource, 'result'), ...objectsAt(resource, 'hasMember')].map((one) => textAt(one, 'reference'))
  const isElsewhere = (reference: string) => {
    const [found] = index.find(reference, resource)
    return found === undefined
  }
  const elsewhere = references.filter(isElsewhere).length
  return refused('results', 'only-groups', { detail: elsewhere === 0 ? '' : `, but ${elsewhere} of them are not in this file` })
}

function rowsOf(entry: FhirEntry, resource: JsonObject, index: FileIndex): readonly Row[] {
  const type = textIfAny(resource, 'resourceType')
  const kind = type === 'Patient' ? 'patients' : 'results'
  if (type === '') return [refused(kind, 'no-resource', { detail: 'it has no resourceType' })]
  if (kind === 'results' && type !== 'Observation' && type !== 'DiagnosticReport') return [refused(kind, 'type-not-read', { text: type })]
  const changed = changedMeaning(resource)
  if (changed !== null) return [refused(kind, 'meaning-changed', { column: changed })]
  if (kind === 'patients') return madeOr(kind, () => [patientRow(resource)])
  const own = type === 'Observation' ? madeOr(kind, () => rowsOfObservation(resource, resource, index.reportOf(entry), index)) : []
  const rows = [...own, ...containedRows(resource, index)]
  return rows.length > 0 ? rows : madeOr(kind, () => [groupRow(resource, index)])
}

/** Whether an entry may be more than one row; any other is exactly one, whatever it says. */
export function mayBeSeveral(resource: JsonObject): boolean {
  return objectsIfAny(resource, 'component').length > 0 || containedObservations(resource).length > 0
}

/** Every row an entry is, at least one. */
export function rowsOfEntry(entry: FhirEntry, index: FileIndex): readonly RawRow[] {
  const { line, source, resource, why } = entry
  const rows = resource === null ? [refused('results', 'no-resource', { detail: why })] : rowsOf(entry, resource, index)
  const text = compactText(source)
  return rows.map((row) => ({ line, text, ...row }))
}
