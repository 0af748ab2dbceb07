import { type Decimal, type Interval, largerInterval, smallerInterval } from '../units/index.ts'
import type { Mark, Measurement } from './course.ts'

/** True when the upper end of `a` lies below that of `b`; no upper end is the highest. */
function endsLower(a: Decimal | null, b: Decimal | null): boolean {
  return a !== null && (b === null || a.lt(b))
}

/** The smaller of two levels, end by end; it is shown by the one with the smaller upper end, the earlier when they are equal. */
function smallerMark(earlier: Mark, later: Mark): Mark {
  const sample = endsLower(later.value.high, earlier.value.high) ? later.sample : earlier.sample
  return { value: smallerInterval(earlier.value, later.value), sample }
}

/** The level two successive samples both reached: the larger of them, end by end, shown by the one that ends higher. */
function reachedByBoth(first: Measurement, second: Measurement): Mark {
  const value: Interval = largerInterval(first.value, second.value)
  return { value, sample: endsLower(first.value.high, second.value.high) ? second : first }
}

function prefixSmallest(levels: readonly Mark[]): Mark[] {
  const smallest: Mark[] = []
  for (const level of levels) {
    const before = smallest.at(-1)
    smallest.push(before === undefined ? level : smallerMark(before, level))
  }
  return smallest
}

/** `lowest[k]`: the smallest value before sample k of the window; null for k = 0. One longer than the window. */
export function lowest(window: readonly Measurement[]): readonly (Mark | null)[] {
  return [null, ...prefixSmallest(window.map((sample) => ({ value: sample.value, sample })))]
}

/**
 * `lowestConfirmed[k]`: the smallest level that two successive samples before k both reached; the baseline where only it stands before k; null
 * for k = 0. One longer than the window.
 */
export function lowestConfirmed(window: readonly Measurement[]): readonly (Mark | null)[] {
  const [baseline] = window
  if (baseline === undefined) return [null]
  const pairs = window.slice(1).map((second, at) => reachedByBoth(window[at] as Measurement, second))
  return [null, { value: baseline.value, sample: baseline }, ...prefixSmallest(pairs)]
}
