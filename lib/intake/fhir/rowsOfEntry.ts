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

/** Whether an Observation says something itself, so that it is a row whatever becomes of it. */
const isOfItsOwn = (observation: JsonObject): boolean =>
  [...observation.members.keys()].some((name) => name === 'component' || name === 'dataAbsentReason' || name.startsWith('value'))

/**
 * The rows of a resource that only groups others: none where all of them are rows of this file, for then nothing of it is left to file; else it is a
 * refused row that says so. A panel of panels is such a row too: panels could name each other and nothing else.
 */
function groupRows(resource: JsonObject, index: FileIndex): readonly Row[] {
  const isReport = textIfAny(resource, 'resourceType') === 'DiagnosticReport'
  const named = [...objectsAt(resource, 'result'), ...objectsAt(resource, 'hasMember')].map((one) => {
    const [found] = index.find(textAt(one, 'reference'), resource)
    return found
  })
  const here = named.filter((one) => one !== undefined)
  const elsewhere = named.length - here.length
  const isTold = here.every((one) => textIfAny(one, 'resourceType') === 'Observation' && (isReport || isOfItsOwn(one)))
  if (named.length > 0 && elsewhere === 0 && isTold) return []
  const missing = `; the results it groups are rows of their own, but ${elsewhere} of them are not in this file`
  const detail = elsewhere > 0 ? missing : named.length === 0 ? ' and groups no result' : ', and neither has what it groups'
  return [refused('results', 'only-groups', { detail })]
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
  return rows.length > 0 ? rows : madeOr(kind, () => groupRows(resource, index))
}

/** Whether an entry may be several rows or none; any other is exactly one, whatever it says. */
export function mayNotBeOne(resource: JsonObject): boolean {
  const groups = objectsIfAny(resource, 'result').length > 0 || objectsIfAny(resource, 'hasMember').length > 0
  return groups || objectsIfAny(resource, 'component').length > 0 || containedObservations(resource).length > 0
}

/** Every row an entry is: at least one, but for what only groups rows of its file. */
export function rowsOfEntry(entry: FhirEntry, index: FileIndex): readonly RawRow[] {
  const { line, source, resource, why } = entry
  const rows = resource === null ? [refused('results', 'no-resource', { detail: why })] : rowsOf(entry, resource, index)
  const text = compactText(source)
  return rows.map((row) => ({ line, text, ...row }))
}
