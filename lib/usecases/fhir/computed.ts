import { ANALYTES, type Comparator } from '../../results/index.ts'
import type { Evidence } from '../../rules/index.ts'
import { LABORATORY } from './observation.ts'
import { quantity } from './observedValue.ts'
import type { ResourceIds } from './resourceIds.ts'
import { type ObservationTold, OURS, referenceTo } from './told.ts'

const isComputed = ({ analyte, resultIds }: Evidence): boolean => !ANALYTES.some((known) => known === analyte) && resultIds.length > 0

const nameOf = ({ analyte, resultIds }: Evidence): string => `${analyte} ${resultIds.join(' ')}`

const CALLED: Readonly<Record<string, string>> = {
  dflc: 'dFLC: involved minus uninvolved free light chain',
  'involved-flc': 'involved free light chain',
  'involved-ratio': 'involved by uninvolved free light chain',
}

function computedOf(evidence: Evidence, ids: ResourceIds, patient: string): ObservationTold {
  const { analyte, value, unit, comparator, collectedOn, resultIds } = evidence
  return {
    resourceType: 'Observation',
    id: ids('computed', nameOf(evidence)),
    status: 'final',
    category: [LABORATORY],
    code: { coding: [{ system: OURS.computed, code: analyte }], text: CALLED[analyte] ?? analyte.replaceAll('-', ' ') },
    subject: referenceTo(patient),
    effectiveDateTime: collectedOn,
    method: { text: 'computed by Lowmark from the results it names' },
    ...(/^-?\d/.test(value) ? { valueQuantity: quantity(value, unit, comparator as Comparator | null) } : { valueString: value }),
    derivedFrom: resultIds.map((resultId) => referenceTo(ids('result', resultId))),
  }
}

/** What findings rest on that no laboratory reported: each computed value once, with the results it was made from. */
export function computedValues(evidence: readonly Evidence[], ids: ResourceIds, patient: string): ObservationTold[] {
  const byName = new Map(evidence.filter(isComputed).map((one) => [nameOf(one), one]))
  return [...byName.values()].map((one) => computedOf(one, ids, patient))
}

/** The Observations of the Bundle that a piece of evidence is: the computed value, or the results themselves; none where it is no result. */
export function evidenceIds(evidence: Evidence, ids: ResourceIds): string[] {
  if (isComputed(evidence)) return [ids('computed', nameOf(evidence))]
  return evidence.resultIds.map((resultId) => ids('result', resultId))
}
