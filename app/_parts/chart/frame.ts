import { scaleLinear, scaleLog } from '@visx/scale'
import { type ChartPlan, placeOf } from '../../../lib/charts/index.ts'
import type { Day } from '../../../lib/time/index.ts'

/** Size of one picture in its own units; text is set in them too. */
export interface PlotSize {
  readonly name: 'wide' | 'narrow'
  readonly width: number
  readonly height: number
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
  readonly timeTicks: number
}

/** Marks carry their words at the right; shown where the page leaves 720 px. */
export const WIDE: PlotSize = { name: 'wide', width: 840, height: 160, left: 44, right: 270, top: 16, bottom: 20, timeTicks: 8 }
/** Marks carry a letter, explained below the picture; made for a telephone. */
export const NARROW: PlotSize = { name: 'narrow', width: 360, height: 160, left: 38, right: 46, top: 16, bottom: 20, timeTicks: 4 }

/** Places in the picture. */
export interface Places {
  readonly x: (on: Day) => number
  readonly y: (value: number) => number
  readonly foot: number
  readonly end: number
}

/** The places of days and values of one chart at one size, to a tenth of a unit. */
export function placesOf(plan: ChartPlan, size: PlotSize): Places {
  const end = size.width - size.right
  const foot = size.height - size.bottom
  const axis = { domain: [...plan.yDomain], range: [foot, size.top], clamp: true }
  const scale = plan.scale === 'log' ? scaleLog<number>(axis) : scaleLinear<number>(axis)
  const tenth = (at: number) => Math.round(at * 10) / 10
  // A value of 0 or below has no logarithm: it stands at the foot.
  const y = (value: number) => tenth(plan.scale === 'log' && value <= 0 ? foot : scale(value))
  return { x: (on) => tenth(size.left + placeOf(plan, on) * (end - size.left)), y, foot, end }
}

/** Moves labels apart so that none is nearer than `least` to the next, none leaves [top, foot], and their order stays. */
export function apart(wanted: readonly number[], least: number, top: number, foot: number): readonly number[] {
  const order = wanted.map((_, at) => at).sort((a, b) => (wanted[a] as number) - (wanted[b] as number))
  const placed = [...wanted]
  let free = top
  for (const at of order) {
    placed[at] = Math.max(placed[at] as number, free)
    free = (placed[at] as number) + least
  }
  let ceiling = foot
  for (const at of order.toReversed()) {
    placed[at] = Math.min(placed[at] as number, ceiling)
    ceiling = (placed[at] as number) - least
  }
  return placed
}
