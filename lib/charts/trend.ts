import type { Course, MarkerName, Measurement } from '../course/index.ts'
import { type DatedValue, logLinearFit, mannKendall, slopeInterval, studentQuantile, theilSen } from '../statistics/index.ts'
import { addDays, addMonths, type Day, daysBetween } from '../time/index.ts'
import { isExact } from '../units/index.ts'
import { drawingNumber } from './label.ts'
import { changeText, directionText, doublingText, robustText, trendCautions } from './trendWords.ts'

/** One place of the fitted curve with the 95 % interval of its mean; the interval is null with two samples. */
export interface TrendPoint {
  readonly on: Day
  readonly y: number
  readonly low: number | null
  readonly high: number | null
}

/** The trend of one marker over the 12 months up to its latest sample, in words, and as a curve where its chart has a place for it. */
export interface Trend {
  readonly name: string
  /** Samples fitted: exact and above 0. */
  readonly samples: number
  readonly from: Day
  readonly to: Day
  readonly change: string
  readonly doubling: string
  readonly robust: string
  readonly direction: string
  readonly cautions: readonly string[]
  readonly curve: readonly TrendPoint[]
}

const MONTHS = 12
const FEWEST = 3
const STEPS = 12
const NONE = 'fewer than 3 samples'

interface Fitted extends DatedValue {
  readonly on: Day
}

/** Least squares of ln(value), drawn from the first to the last sample; the interval of the mean is narrowest in the middle of the samples. */
function curveOf(points: readonly Fitted[], fit: NonNullable<ReturnType<typeof logLinearFit>>): readonly TrendPoint[] {
  const [first, last] = [points[0]?.on, points.at(-1)?.on]
  if (first === undefined || last === undefined) return []
  const days = points.map(({ on }) => daysBetween(first, on))
  const middle = days.reduce((sum, day) => sum + day, 0) / days.length
  const spread = days.reduce((sum, day) => sum + (day - middle) ** 2, 0)
  return Array.from({ length: STEPS + 1 }, (_, step): TrendPoint => {
    const at = Math.round((daysBetween(first, last) * step) / STEPS)
    const log = fit.intercept + fit.slope * at
    const reach =
      fit.slopeError === null ? null : studentQuantile(0.975, fit.degrees) * fit.slopeError * Math.sqrt(spread / days.length + (at - middle) ** 2)
    return {
      on: addDays(first, at),
      y: Math.exp(log),
      low: reach === null ? null : Math.exp(log - reach),
      high: reach === null ? null : Math.exp(log + reach),
    }
  })
}

function fittedOf(samples: readonly Measurement[]): readonly Fitted[] {
  return samples.filter(({ value }) => isExact(value) && value.low.gt(0)).map(({ on, value }) => ({ on, value: drawingNumber(value.low) }))
}

/**
 * The trend of a marker: log-linear fit with its 95 % interval and doubling time, beside it the Theil-Sen slope of ln(value), which no single sample
 * can turn, and Mann-Kendall's test of direction. Null where the marker has no sample. Below three samples it says so and gives no slope.
 */
export function trendOf(course: Course, marker: MarkerName, name: string, isDrawn: boolean): Trend | null {
  const { samples } = course.markers[marker]
  const latest = samples.at(-1)
  if (latest === undefined) return null
  const begins = addMonths(latest.on, -MONTHS)
  const recent = samples.filter(({ on }) => on >= begins)
  const points = fittedOf(recent)
  const [first] = points
  const fit = points.length < FEWEST ? null : logLinearFit(points)
  const told = { name, samples: points.length, from: points[0]?.on ?? begins, to: points.at(-1)?.on ?? latest.on }
  if (fit === null || first === undefined) {
    const cautions = trendCautions({ recent, fitted: points.length, slopes: null })
    return { ...told, change: NONE, doubling: NONE, robust: NONE, direction: NONE, cautions, curve: [] }
  }
  const robust = theilSen(points.map(({ on, value }) => ({ x: daysBetween(first.on, on), y: Math.log(value) })))
  const interval = slopeInterval(fit)
  return {
    ...told,
    change: changeText(fit.slope, interval),
    doubling: doublingText(fit.slope, interval),
    robust: robust === null ? NONE : robustText(robust.slope, robust.interval),
    direction: directionText(mannKendall(points.map(({ value }) => value)), points.length),
    cautions: trendCautions({ recent, fitted: points.length, slopes: robust === null ? null : [fit.slope, robust.slope] }),
    curve: isDrawn ? curveOf(points, fit) : [],
  }
}
