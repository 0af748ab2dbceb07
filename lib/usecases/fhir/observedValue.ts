import type { CodeableConcept } from 'fhir/r4'
import { analyteUnit } from '../../intake/index.ts'
import type { Comparator, LabResult, Quantity, ReferenceLimit } from '../../results/index.ts'
import { type Decimal, decimalText, parseDecimal, ucumCodeOf } from '../../units/index.ts'
import { ExactNumber } from './exactJson.ts'
import { hl7, type ObservationTold, type QuantityTold, stringOf, UCUM } from './told.ts'

/** An amount with its UCUM unit; `unit` is how the unit is written here. */
export function quantity(digits: string, unit: string, comparator: Comparator | null = null): QuantityTold {
  const code = ucumCodeOf(unit, unit)
  return { value: new ExactNumber(digits), ...(comparator === null ? {} : { comparator }), unit, system: UCUM, code }
}

/** The digits as reported where they are a number of FHIR and this number; else its plain digits. */
function digitsOf(valueText: string, value: Decimal): string {
  const spelt = valueText.replace(/^[<>=≤≥\s]+/, '').trim()
  const isSame = /^(0|[1-9]\d*)(\.\d+)?$/.test(spelt) && parseDecimal(spelt)?.eq(value) === true
  return isSame ? spelt : decimalText(value)
}

const printedEnd = ({ printed: { low, high } }: Quantity, comparator: Comparator | null): Decimal =>
  comparator?.startsWith('<') && high !== null ? high : low

const NO_VALUE = (reason: string): Pick<ObservationTold, 'dataAbsentReason'> => {
  const text = reason === 'empty' ? undefined : stringOf(reason)
  return { dataAbsentReason: { ...hl7('data-absent-reason', 'unknown', 'Unknown'), ...(text === undefined ? {} : { text }) } }
}

/** Words a laboratory reported in place of a number, as received. */
function wordsOf(received: string, otherwise: string): Pick<ObservationTold, 'valueCodeableConcept'> {
  return { valueCodeableConcept: { text: stringOf(received) ?? otherwise } }
}

/** value[x] of a result as it was reported: in the unit printed, with its comparator and digits; or why there is none. */
export function reportedValue({ analyte, value, provenance: { valueText } }: LabResult): Partial<ObservationTold> {
  switch (value.kind) {
    case 'number':
      return { valueQuantity: quantity(digitsOf(valueText, printedEnd(value, value.comparator)), value.printedUnit, value.comparator) }
    case 'not-detected':
      return wordsOf(valueText, 'not detected')
    case 'present':
      if (value.upTo === null) return wordsOf(valueText, 'detected, not quantifiable')
      return { valueQuantity: quantity(decimalText(value.upTo), analyteUnit(analyte)?.kept ?? '1', '<=') }
    case 'immunofixation': {
      const valueString = stringOf(valueText)
      return valueString === undefined ? NO_VALUE('empty') : { valueString }
    }
    case 'none':
      return NO_VALUE(value.reason)
  }
}

function limits(low: ReferenceLimit | null, high: ReferenceLimit | null, unit: string): NonNullable<ObservationTold['referenceRange']> {
  const told = (limit: ReferenceLimit) => quantity(decimalText(limit.printed), unit)
  return [{ ...(low === null ? {} : { low: told(low) }), ...(high === null ? {} : { high: told(high) }) }]
}

/** Above, below or inside the laboratory's own limits, where that is certain. */
function heldAgainst({ kept: { low, high } }: Quantity, lower: ReferenceLimit | null, upper: ReferenceLimit | null): CodeableConcept | null {
  if (upper !== null && low.gt(upper.kept)) return hl7('v3-ObservationInterpretation', 'H', 'High')
  if (lower !== null && high?.lt(lower.kept) === true) return hl7('v3-ObservationInterpretation', 'L', 'Low')
  const isInside = (lower === null || low.gte(lower.kept)) && (upper === null || high?.lte(upper.kept) === true)
  return isInside ? hl7('v3-ObservationInterpretation', 'N', 'Normal') : null
}

/** The laboratory's limits, and on which side of them the value lies; that something was seen, where only an upper limit of it was reported. */
export function limitsOf({ value, referenceLow, referenceHigh }: LabResult): Pick<ObservationTold, 'referenceRange' | 'interpretation'> {
  if (value.kind === 'present') return { interpretation: [hl7('v3-ObservationInterpretation', 'DET', 'Detected')] }
  if (value.kind !== 'number' || (referenceLow === null && referenceHigh === null)) return {}
  const interpretation = heldAgainst(value, referenceLow, referenceHigh)
  return {
    referenceRange: limits(referenceLow, referenceHigh, value.printedUnit),
    ...(interpretation === null ? {} : { interpretation: [interpretation] }),
  }
}
