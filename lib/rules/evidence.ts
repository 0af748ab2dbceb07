import type { Measurement } from '../course/index.ts'
import { decimalText, isExact } from '../units/index.ts'
import type { Evidence } from './finding.ts'

/** The number a sample's report prints and its comparator; for a derived range, the end that is known. */
function numberShown({ value, comparator }: Measurement): Pick<Evidence, 'value' | 'comparator'> {
  if (isExact(value)) return { value: decimalText(value.low), comparator }
  if (value.high === null) return { value: decimalText(value.low), comparator: comparator ?? '>=' }
  return { value: decimalText(value.high), comparator: comparator ?? '<=' }
}

/** A sample as evidence: value in the unit kept, canonical decimal text, and the stored results behind it. */
export function evidenceOf(role: Evidence['role'], analyte: string, unit: string, sample: Measurement): Evidence {
  return { role, analyte, unit, ...numberShown(sample), collectedOn: sample.on, resultIds: sample.results.map((result) => result.id) }
}

/** A sample's value as a person reads it: words, or number and unit as printed by the laboratory where it printed one. */
export function valueText(sample: Measurement, unit: string): string {
  if (sample.words !== null && sample.printed === null) return sample.words
  const printed = sample.printed === null ? sample : { ...sample, value: sample.printed.printed }
  const { value, comparator } = numberShown(printed)
  return `${comparator ?? ''}${value} ${sample.printed?.printedUnit ?? unit}`
}

/** A sample's value in the unit kept, as a person reads it. */
export function keptText(sample: Measurement, unit: string): string {
  return sample.words !== null && sample.printed === null ? sample.words : valueText({ ...sample, printed: null, words: null }, unit)
}

const ROLES: readonly Evidence['role'][] = ['reference', 'previous', 'current']

/** Evidence in the order it is told: what it is held against, the sample before, the sample itself. */
export function inOrderOfRole(evidence: readonly Evidence[]): readonly Evidence[] {
  return [...evidence].sort((a, b) => ROLES.indexOf(a.role) - ROLES.indexOf(b.role))
}
