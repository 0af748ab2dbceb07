import type { Measurement } from '../course/index.ts'
import { type Decimal, decimal, type Interval, isExact } from '../units/index.ts'
import type { Caution } from './finding.ts'

/** The caution where a condition asks for it, nothing where it does not. */
export function when(condition: boolean, caution: Caution): Caution[] {
  return condition ? [caution] : []
}

/** True when any value is an interval and not a number. */
export function anyCensored(...values: readonly (Interval | null | undefined)[]): boolean {
  return values.some((value) => value !== null && value !== undefined && !isExact(value))
}

/** True when two samples come from different, known laboratories or by different, known methods. */
export function methodChanged(a: Measurement, b: Measurement): boolean {
  const differ = (one: string | null, other: string | null) => one !== null && other !== null && one !== other
  return differ(a.laboratory, b.laboratory) || differ(a.method, b.method)
}

/** Ratios that a wrong unit leaves behind, and how far from them still counts: 20 % (ours). */
const FACTORS = ['10', '100', '0.1', '0.01'].map(decimal)
const TOLERANCE = decimal('0.2')

function isNear(value: Decimal, target: Decimal): boolean {
  return value.minus(target).abs().lte(target.times(TOLERANCE))
}

/** True when a value is about 10 or 100 times, or a tenth or a hundredth of, the one before: a wrong unit rather than a patient. */
export function unitSuspect(before: Measurement | undefined, current: Measurement): boolean {
  if (before === undefined || !isExact(before.value) || !isExact(current.value)) return false
  return FACTORS.some((factor) => isNear(current.value.low, before.value.low.times(factor)) && current.value.low.gt(0))
}
