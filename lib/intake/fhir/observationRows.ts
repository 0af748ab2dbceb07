import type { Observation } from 'fhir/r4'
import type { JsonObject } from '../json/json.ts'
import type { RowFields } from '../row.ts'
import { circumstances, type Observed } from './circumstances.ts'
import { objectsAt, textAt } from './element.ts'
import { observedCode } from './observedCode.ts'
import { saysSomething, valueFields } from './observedValue.ts'
import { idOfSubject } from './patientId.ts'

// A result that is only registered, or whose state the sender does not know, has no status of ours: its word is kept, and refused as one.
const STATUS_OF: Readonly<Record<Observation['status'], string>> = {
  final: 'final',
  amended: 'corrected',
  corrected: 'corrected',
  preliminary: 'preliminary',
  cancelled: 'cancelled',
  'entered-in-error': 'entered-in-error',
  registered: 'registered',
  unknown: 'unknown',
}

/** Our word for a status; another word as it is. An empty one would mean final in a CSV file, here it means nothing. */
function statusOf(observation: JsonObject): string {
  const status = textAt(observation, 'status')
  return status === '' ? 'no status' : (Object.entries(STATUS_OF).find(([theirs]) => theirs === status)?.[1] ?? status)
}

/**
 * The columns of each result an Observation holds: itself where it says something, and each of its components. None where it only groups others.
 * Throws `BadElement` and `PatientUnclear`.
 */
export function observationRows(observed: Observed): readonly RowFields[] {
  const { observation, within, index } = observed
  const components = objectsAt(observation, 'component')
  const isGroup = components.length > 0 || objectsAt(observation, 'hasMember').length > 0
  const results = [...(isGroup && !saysSomething(observation) ? [] : [observation]), ...components]
  const shared = { patient_id: idOfSubject(observation, index, within), status: statusOf(observation), ...circumstances(observed) }
  return results.map((result) => ({ ...shared, code: observedCode(result), ...valueFields(result) }))
}
