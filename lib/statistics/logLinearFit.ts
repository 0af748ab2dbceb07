import { studentQuantile } from './studentQuantile.ts'

/** A value on an ISO day. */
export interface DatedValue {
  readonly on: string
  readonly value: number
}

/** Least squares of ln(value) on days since the first point. */
export interface LogLinearFit {
  /** ln(value) at the first day. */
  readonly intercept: number
  /** ln(value) a day. */
  readonly slope: number
  /** Null with two points, which leave no degree of freedom. */
  readonly slopeError: number | null
  readonly degrees: number
}

const MS_PER_DAY = 86_400_000
const dayNumber = (on: string): number => Date.UTC(Number(on.slice(0, 4)), Number(on.slice(5, 7)) - 1, Number(on.slice(8, 10))) / MS_PER_DAY

/** Fits points oldest first or in any order; null for fewer than two days. Throws RangeError on a value of 0 or below, which has no logarithm. */
export function logLinearFit(points: readonly DatedValue[]): LogLinearFit | null {
  if (points.some(({ value }) => !(value > 0))) throw new RangeError('a value of 0 or below has no logarithm')
  const numbers = points.map(({ on }) => dayNumber(on))
  const first = Math.min(...numbers)
  const n = points.length
  const xs = numbers.map((number) => number - first)
  const ys = points.map(({ value }) => Math.log(value))
  const meanX = xs.reduce((sum, x) => sum + x, 0) / n
  const meanY = ys.reduce((sum, y) => sum + y, 0) / n
  const spread = xs.reduce((sum, x) => sum + (x - meanX) ** 2, 0)
  if (n < 2 || spread === 0) return null
  const slope = xs.reduce((sum, x, at) => sum + (x - meanX) * ((ys[at] ?? 0) - meanY), 0) / spread
  const intercept = meanY - slope * meanX
  const residual = xs.reduce((sum, x, at) => sum + ((ys[at] ?? 0) - intercept - slope * x) ** 2, 0)
  const degrees = n - 2
  return { intercept, slope, slopeError: degrees === 0 ? null : Math.sqrt(residual / degrees / spread), degrees }
}

/** Two-sided confidence interval of the slope, ln(value) a day; null where the fit leaves no degree of freedom. */
export function slopeInterval(fit: LogLinearFit, confidence = 0.95): readonly [low: number, high: number] | null {
  if (fit.slopeError === null) return null
  const reach = studentQuantile((1 + confidence) / 2, fit.degrees) * fit.slopeError
  return [fit.slope - reach, fit.slope + reach]
}
