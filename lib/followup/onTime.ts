import { wilsonInterval } from '../statistics/index.ts'
import type { Occasion } from './occasion.ts'

/** What became of the tests that were due. Always `onTime + late + missed = due`. */
export interface OnTime {
  readonly due: number
  readonly onTime: number
  readonly late: number
  readonly missed: number
  /** `onTime` of `due`, as a fraction; null where nothing was due. */
  readonly proportion: number | null
  /** Wilson's interval of the proportion, 95 %; null where nothing was due. */
  readonly wilson95: readonly [low: number, high: number] | null
}

/** Counts as they grow. Plain data, so that parts counted apart can be added. */
export interface Tally {
  due: number
  onTime: number
  late: number
  missed: number
  /** Days from the due day to the sample, of each that was late. */
  daysLate: number[]
}

export function emptyTally(): Tally {
  return { due: 0, onTime: 0, late: 0, missed: 0, daysLate: [] }
}

/** Counts one occasion; one that is pending or excluded is not due. */
export function count(tally: Tally, { verdict, daysLate }: Pick<Occasion, 'verdict' | 'daysLate'>): void {
  if (verdict === 'pending' || verdict === 'excluded') return
  tally.due += 1
  if (verdict === 'on-time') tally.onTime += 1
  else if (verdict === 'missed') tally.missed += 1
  else {
    tally.late += 1
    tally.daysLate.push(daysLate)
  }
}

/** Adds what was counted apart. */
export function addTally(into: Tally, from: Tally): void {
  into.due += from.due
  into.onTime += from.onTime
  into.late += from.late
  into.missed += from.missed
  for (const days of from.daysLate) into.daysLate.push(days)
}

/** Shares of what was counted. */
export function onTimeOf({ due, onTime, late, missed }: Tally): OnTime {
  const shares = due === 0 ? { proportion: null, wilson95: null } : { proportion: onTime / due, wilson95: wilsonInterval(onTime, due) }
  return { due, onTime, late, missed, ...shares }
}
