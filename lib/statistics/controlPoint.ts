/** One sample of a control chart, in the unit of the chart. */
export interface ControlPoint {
  /** Null, as the limits, where the sample is of nothing: it is shown as a gap and signals nothing. */
  readonly value: number | null
  readonly low: number | null
  readonly high: number | null
  /** The limit would lie outside what a share or a rate can be and stands at its edge: no value can lie beyond it. */
  readonly lowCut: boolean
  readonly highCut: boolean
  /** Beyond a limit, not on it. */
  readonly signal: 'above' | 'below' | null
}

export interface ControlChart {
  readonly centre: number
  /** As the samples were given. */
  readonly points: readonly ControlPoint[]
}

/** How many standard deviations the limits lie from the centre. Shewhart 1931. */
const SIGMAS = 3

/** A value with its limits, three standard deviations on either side of the centre, cut at `most` and at 0. */
export function controlPoint(value: number | null, centre: number, deviation: number, most: number): ControlPoint {
  if (value === null) return { value, low: null, high: null, lowCut: false, highCut: false, signal: null }
  const [low, high] = [centre - SIGMAS * deviation, centre + SIGMAS * deviation]
  const signal = value > high ? 'above' : value < low ? 'below' : null
  return { value, low: Math.max(0, low), high: Math.min(most, high), lowCut: low < 0, highCut: high > most, signal }
}
