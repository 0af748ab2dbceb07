import { type Decimal, decimal, smaller } from './decimal.ts'

/** Every value a report leaves possible, both ends included. `high` is null where there is no upper end (">5000"). */
export interface Interval {
  readonly low: Decimal
  readonly high: Decimal | null
}

/** How surely something holds over all the values an interval leaves possible. */
export type Holds = 'certain' | 'possible' | 'no'

export function exactly(value: Decimal | string | number): Interval {
  const at = typeof value === 'object' ? value : decimal(value)
  return { low: at, high: at }
}

export function isExact(of: Interval): boolean {
  return of.high?.eq(of.low) ?? false
}

export function scaled(of: Interval, factor: Decimal): Interval {
  return { low: of.low.times(factor), high: of.high === null ? null : of.high.times(factor) }
}

/** Interval of the smaller of two values: end by end. */
export function smallerInterval(a: Interval, b: Interval): Interval {
  const high = a.high === null ? b.high : b.high === null ? a.high : smaller(a.high, b.high)
  return { low: smaller(a.low, b.low), high }
}

/** Interval of the larger of two values: end by end. */
export function largerInterval(a: Interval, b: Interval): Interval {
  return {
    low: a.low.gte(b.low) ? a.low : b.low,
    high: a.high === null || b.high === null ? null : a.high.gte(b.high) ? a.high : b.high,
  }
}

/** `a - b` where both come from one sample; a lower end below 0 stays below 0. */
export function difference(a: Interval, b: Interval): Interval | null {
  if (b.high === null) return null
  return { low: a.low.minus(b.high), high: a.high === null ? null : a.high.minus(b.low) }
}

function judged(lowEnd: boolean, highEnd: boolean): Holds {
  return lowEnd && highEnd ? 'certain' : lowEnd || highEnd ? 'possible' : 'no'
}

export function atLeast(of: Interval, limit: Decimal): Holds {
  return judged(of.low.gte(limit), of.high === null || of.high.gte(limit))
}

export function above(of: Interval, limit: Decimal): Holds {
  return judged(of.low.gt(limit), of.high === null || of.high.gt(limit))
}

export function below(of: Interval, limit: Decimal): Holds {
  return judged(of.low.lt(limit), of.high?.lt(limit) ?? false)
}

export function atMost(of: Interval, limit: Decimal): Holds {
  return judged(of.low.lte(limit), of.high?.lte(limit) ?? false)
}

const RANK: Record<Holds, number> = { no: 0, possible: 1, certain: 2 }

/** All hold: the weakest of them. */
export function allHold(...parts: readonly Holds[]): Holds {
  return parts.reduce((weakest, part) => (RANK[part] < RANK[weakest] ? part : weakest), 'certain')
}

/** Any holds: the strongest of them. */
export function anyHolds(...parts: readonly Holds[]): Holds {
  return parts.reduce((strongest, part) => (RANK[part] > RANK[strongest] ? part : strongest), 'no')
}
