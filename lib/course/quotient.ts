import { type Decimal, decimal, type Interval, isExact } from '../units/index.ts'

/** Decimals a quotient keeps. Rules never rest on it: they cross-multiply. */
const PLACES = 12
const STEP = decimal('1e-12')
const ZERO = decimal('0')

function nearest(a: Decimal, b: Decimal): Decimal {
  return a.div(b).round(PLACES)
}

function downward(a: Decimal, b: Decimal): Decimal {
  const near = nearest(a, b)
  return near.times(b).gt(a) ? near.minus(STEP) : near
}

function upward(a: Decimal, b: Decimal): Decimal {
  const near = nearest(a, b)
  return near.times(b).lt(a) ? near.plus(STEP) : near
}

/**
 * `a / b` for two values of 0 or more. Two exact values give one number to 12 decimals; otherwise every quotient they leave possible, rounded
 * outward. Null where `b` can only be 0.
 */
export function quotient(a: Interval, b: Interval): Interval | null {
  if (b.high?.eq(0)) return null
  if (isExact(a) && isExact(b)) {
    const at = nearest(a.low, b.low)
    return { low: at, high: at }
  }
  const low = b.high === null ? ZERO : downward(a.low, b.high)
  return { low, high: a.high === null || b.low.eq(0) ? null : upward(a.high, b.low) }
}
