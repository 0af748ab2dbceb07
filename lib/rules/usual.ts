import type { Measurement } from '../course/index.ts'
import { addMonths, type Day } from '../time/index.ts'
import { type Decimal, decimal, type Interval } from '../units/index.ts'

/** The samples that tell what is usual for a patient, and their median. */
export interface Usual {
  readonly value: Interval
  readonly samples: readonly Measurement[]
}

const EARLIEST_MONTHS = 24
const LATEST_MONTHS = 6
const HALF = decimal('0.5')

/** Mean of the two middle ends; with an odd count both are the one in the middle. Null where that is no upper end. */
function middle(ends: readonly (Decimal | null)[]): Decimal | null {
  const ordered = [...ends].sort((a, b) => (a === null ? 1 : b === null ? -1 : a.cmp(b)))
  const [first, second] = [ordered[Math.floor((ordered.length - 1) / 2)] ?? null, ordered[Math.floor(ordered.length / 2)] ?? null]
  return first === null || second === null ? null : first.plus(second).times(HALF)
}

/** Median of the samples from 24 to 6 calendar months before a day, both included, exact; null without one. Samples are oldest first. */
export function usualBefore(samples: readonly Measurement[], on: Day): Usual | null {
  const [from, to] = [addMonths(on, -EARLIEST_MONTHS), addMonths(on, -LATEST_MONTHS)]
  const counted = samples.filter((sample) => sample.on >= from && sample.on <= to)
  const low = middle(counted.map(({ value }) => value.low))
  return low === null ? null : { value: { low, high: middle(counted.map(({ value }) => value.high)) }, samples: counted }
}
