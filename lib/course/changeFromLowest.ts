import { type Decimal, decimal, decimalText, type Interval, isExact, roundedText } from '../units/index.ts'
import type { Mark, Marker } from './course.ts'

/** Decimal text in the marker's unit; per cent to one decimal, half away from zero; `why` tells in words why a part is missing. */
export interface ChangeFromLowest {
  readonly absolute: string | null
  readonly percent: string | null
  readonly why: string | null
}

const HUNDRED = decimal('100')

function percentText(change: Decimal, reference: Decimal): string {
  return roundedText(change.times(HUNDRED).div(reference), 1)
}

function rangeWords(low: Decimal, high: Decimal | null, unit: string): string {
  const range = high === null ? `at least ${decimalText(low)}` : `between ${decimalText(low)} and ${decimalText(high)}`
  return `${[range, unit].join(' ').trim()}: a value was reported as a limit`
}

/** A value against a mark, exact: see `changeFromLowest`. `unit` stands in the words of a range only. */
export function changeBetween(current: Interval, { value: reference, sample }: Mark, unit: string): ChangeFromLowest {
  if (reference.high === null) return { absolute: null, percent: null, why: 'the lowest value has no upper end' }
  const least = current.low.minus(reference.high)
  const absolute = decimalText(least)
  if (!isExact(current) || !isExact(reference)) {
    const most = current.high === null ? null : current.high.minus(reference.low)
    return { absolute, percent: null, why: rangeWords(least, most, unit) }
  }
  if (reference.low.gt(0)) return { absolute, percent: percentText(least, reference.low), why: null }
  return { absolute, percent: null, why: sample.words === 'not detected' ? 'lowest value not detected' : 'lowest value not above 0' }
}

/**
 * The current sample against the lowest value before it in the window of comparison, exact. Where either is an interval, `absolute` is the least
 * change it leaves possible and `why` gives the range; where the lowest value is 0 there is no percentage.
 */
export function changeFromLowest(marker: Marker): ChangeFromLowest {
  const current = marker.window.at(-1)
  if (current === undefined) return { absolute: null, percent: null, why: 'no baseline' }
  const reference = marker.lowest[marker.window.length - 1] ?? null
  if (reference === null) return { absolute: null, percent: null, why: 'no sample since the baseline' }
  return changeBetween(current.value, reference, marker.unit === '1' ? '' : marker.unit)
}
