import type { Measurement } from '../course/index.ts'
import { type Decimal, decimal, type Interval } from '../units/index.ts'

/** One threshold in each unit it is published in, the kept unit among them. */
export interface PublishedLimit {
  readonly keptUnit: string
  readonly in: Readonly<Record<string, Decimal>>
}

/** A value and the threshold in one unit. */
export interface Compared {
  readonly value: Interval
  readonly limit: Decimal
  readonly unit: string
}

/** Declares a threshold: `published('umol/L', { 'umol/L': '177', 'mg/dL': '2' })`. */
export function published(keptUnit: string, forms: Readonly<Record<string, string>>): PublishedLimit {
  return { keptUnit, in: Object.fromEntries(Object.entries(forms).map(([unit, text]) => [unit, decimal(text)])) }
}

function formIn({ keptUnit, in: forms }: PublishedLimit, unit: string): Decimal {
  const form = forms[unit]
  if (form === undefined) throw new RangeError(`no form of the limit in "${unit}" beside "${keptUnit}"`)
  return form
}

/** True when the threshold is published in this printed unit. */
function isPrintedIn(limit: PublishedLimit, unit: string | undefined): unit is string {
  return unit !== undefined && limit.in[unit] !== undefined
}

/** The sample and the threshold in the unit both are printed in (2 mg/dL or 177 umol/L); in the kept unit where they share none. */
export function compared(sample: Measurement, limit: PublishedLimit): Compared {
  const unit = sample.printed?.printedUnit
  if (sample.printed !== null && isPrintedIn(limit, unit)) return { value: sample.printed.printed, limit: formIn(limit, unit), unit }
  return { value: sample.value, limit: formIn(limit, limit.keptUnit), unit: limit.keptUnit }
}

/** Two samples and a difference in the unit all three are printed in; in the kept unit where they share none. */
export function comparedPair(reference: Measurement, current: Measurement, limit: PublishedLimit): Compared & { readonly reference: Interval } {
  const unit = current.printed?.printedUnit
  if (current.printed !== null && reference.printed !== null && reference.printed.printedUnit === unit && isPrintedIn(limit, unit)) {
    return { value: current.printed.printed, reference: reference.printed.printed, limit: formIn(limit, unit), unit }
  }
  return { value: current.value, reference: reference.value, limit: formIn(limit, limit.keptUnit), unit: limit.keptUnit }
}
