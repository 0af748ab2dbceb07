import { scaleLinear, scaleLog } from '@visx/scale'
import type { DayCount, PanelLayout, Stretch } from '../../../lib/charts/inBrowser.ts'

/** Height of one panel in CSS pixels: only its width follows the window. */
export const HEIGHT = 96
/** Room at the top for the number of the latest value, at the foot for the axis. */
export const TOP = 18
export const FOOT = HEIGHT - 8
/** Width of the picture's inner units; they are stretched to the window, while strokes and text are not. */
export const WIDTH = 1000

const tenth = (at: number): number => Math.round(at * 10) / 10

/** Where a day lies across a stretch: 0 to 100 inside it. */
export function across({ from, to }: Stretch, day: DayCount): number {
  return Math.round(((day - from) / Math.max(to - from, 1)) * 1e4) / 100
}

/** Where a day lies in the inner units. */
export function along(stretch: Stretch, day: DayCount): number {
  return tenth(across(stretch, day) * (WIDTH / 100))
}

/** How high a value lies, in CSS pixels from the top; null where the layout has no place for it. Values off the axis stand at its ends. */
export function heightsOf({ scale, yDomain, less }: PanelLayout): (at: number) => number | null {
  const axis = { domain: [...yDomain], range: [FOOT, TOP], clamp: true }
  const place = scale === 'log' ? scaleLog<number>(axis) : scaleLinear<number>(axis)
  return (at) => (scale === 'log' && at <= 0 ? null : tenth(place(at - less)))
}
