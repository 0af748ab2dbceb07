/**
 * Gompertz growth: mass after `days` of a clone that starts at `start` and slows as it nears `capacity`.
 * `rate` per day; 0 keeps it where it is. A clone at its capacity is flat, as most precursors are for years.
 */
export function gompertz(start: number, capacity: number, rate: number, days: number): number {
  return capacity * Math.exp(Math.log(start / capacity) * Math.exp(-rate * days))
}

/** The rate with which `start` reaches `reached` after `days`; `start < reached < capacity`. */
export function rateToReach(start: number, reached: number, capacity: number, days: number): number {
  return Math.log(Math.log(start / capacity) / Math.log(reached / capacity)) / days
}
