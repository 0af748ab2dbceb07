import { type Bin, histogram } from '../statistics/index.ts'
import { LEAST_SHOWN } from './smallGroups.ts'

const WEEK = 7
/** More bars than this are no picture. (ours) */
const MOST = 12
/** Fewer bars say hardly more than the median. (ours) */
const FEWEST = 3
/** The last, open bin holds at most so much of all, or the bins are made wider. (ours) */
const MOST_OPEN = 0.25

const mayBeShown = (count: number): boolean => count === 0 || count >= LEAST_SHOWN

/** Bins of one width from day 0 up to the first that holds too few; what lies beyond stands together in an open one, which takes in more until it may be shown. */
function binsOf(days: readonly number[], width: number, most: number): readonly Bin[] {
  const even = histogram(
    days,
    Array.from({ length: Math.floor(most / width) + 2 }, (_, at) => at * width),
  ).slice(1, -1)
  const few = even.findIndex(({ count }) => !mayBeShown(count))
  let closed = few === -1 ? even.length : few
  const beyond = () => even.slice(closed).reduce((sum, { count }) => sum + count, 0)
  while (!mayBeShown(beyond())) closed -= 1
  const open = beyond()
  // No row of empty bins before the open one.
  while (open > 0 && closed > 0 && even[closed - 1]?.count === 0) closed -= 1
  return [...even.slice(0, closed), ...(open === 0 ? [] : [{ from: closed * width, below: null, count: open }])]
}

const openShare = (bins: readonly Bin[], all: number): number => (bins.at(-1)?.below === null ? (bins.at(-1)?.count ?? 0) / all : 0)
const filled = (bins: readonly Bin[]): number => bins.filter(({ count }) => count > 0).length

/**
 * Days late in bins as wide as each other: whole weeks, doubled until at most twelve bins hold all but a quarter, which stand in an open last one; where no width
 * does so in three bins or more, the one that tells most. A bin is empty or holds at least five tests: one test far out would be known again by whoever knows the
 * patient. None for fewer than five.
 */
export function lateBins(days: readonly number[]): readonly Bin[] {
  if (days.length < LEAST_SHOWN) return []
  const most = days.reduce((greatest, day) => Math.max(greatest, day), 0)
  let told: readonly Bin[] = []
  for (let width = WEEK; width < 2 * Math.max(most, WEEK) + 2; width *= 2) {
    const bins = binsOf(days, width, most)
    const [count, open] = [filled(bins), openShare(bins, days.length)]
    if (bins.length > MOST) continue
    if (count >= FEWEST && open <= MOST_OPEN) return bins
    if (count > filled(told) || (count === filled(told) && open < openShare(told, days.length))) told = bins
  }
  return told
}
