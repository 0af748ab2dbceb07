import { type DatedValue, logLinearFit } from './logLinearFit.ts'

const FEWEST = 3

/**
 * Days in which the fitted value doubles, ln 2 over the log-linear slope. Null with fewer than three values above 0 or a slope that does not rise. The
 * caller chooses the points (exact values of the last 12 months); a value of 0 or below is left out.
 */
export function doublingDays(points: readonly DatedValue[]): number | null {
  const positive = points.filter(({ value }) => value > 0)
  const fit = positive.length < FEWEST ? null : logLinearFit(positive)
  return fit === null || fit.slope <= 0 ? null : Math.LN2 / fit.slope
}
