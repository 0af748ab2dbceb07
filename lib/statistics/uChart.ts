import { type ControlChart, controlPoint } from './controlPoint.ts'

/** `events`, a whole number, over an `exposure` of 0 or above: patient-years, say. Unlike a share, events may be more than units. */
export interface Exposed {
  readonly events: number
  readonly exposure: number
}

/**
 * A u-chart: events a unit of exposure, each sample with limits of its own exposure. Null where there is no exposure; throws RangeError for events that are no count,
 * an exposure below 0 or not finite, and events without exposure. Montgomery, Introduction to Statistical Quality Control, on nonconformities a unit.
 */
export function uChart(samples: readonly Exposed[]): ControlChart | null {
  for (const { events, exposure } of samples) {
    const counted = Number.isInteger(events) && events >= 0 && exposure >= 0 && Number.isFinite(exposure)
    if (!counted || (exposure === 0 && events > 0)) throw new RangeError(`${events} over ${exposure} is no rate`)
  }
  const whole = samples.reduce((sum, { exposure }) => sum + exposure, 0)
  if (whole === 0) return null
  const centre = samples.reduce((sum, { events }) => sum + events, 0) / whole
  const points = samples.map(({ events, exposure }) =>
    controlPoint(exposure === 0 ? null : events / exposure, centre, Math.sqrt(centre / exposure), Number.POSITIVE_INFINITY),
  )
  return { centre, points }
}
