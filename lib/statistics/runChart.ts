import library from 'jstat'
import { median } from './median.ts'

const { binomial } = library.jStat

export interface RunChart {
  readonly median: number
  /** Values off the median, which alone count. */
  readonly useful: number
  /** Values in a row on one side, and the places, from 0, of the first and last of them among the values given; the earliest of equally long ones. */
  readonly longestRun: { readonly length: number; readonly from: number; readonly to: number } | null
  readonly crossings: number
  /** A longer run, or fewer crossings, is unusual. Null with fewer than ten useful values, which cannot tell. */
  readonly limits: { readonly longestRun: number; readonly crossings: number } | null
  readonly runTooLong: boolean
  readonly crossingsTooFew: boolean
}

/** Below this the limits are hardly ever exceeded, whatever happens. (Tables begin there: from memory) */
const FEWEST = 10

/** The least number of crossings that a random order falls short of in at most 5 %: the 5 % point of binomial(n - 1, 1/2). */
function fewestCrossings(useful: number): number {
  let crossings = 0
  while (binomial.cdf(crossings, useful - 1, 0.5) < 0.05) crossings++
  return crossings
}

/**
 * Whether values in the order of time shift, by runs and crossings of their median. Null stands for no value, and values on the median are left out, so a run goes
 * on over both. Null for no value at all; throws RangeError for one that is no number. Unusual is a run longer than log2(n) + 3, rounded, or fewer
 * crossings than the 5 % point of binomial(n - 1, 1/2), n the useful values. Anhoej and Olesen, PLoS ONE 2014;9:e113825.
 */
export function runChart(values: readonly (number | null)[]): RunChart | null {
  const given = values.filter((value) => value !== null)
  if (given.some((value) => !Number.isFinite(value))) throw new RangeError('a value of a run chart is a number, or null')
  if (given.length === 0) return null
  const middle = median(given)
  const runs: { above: boolean; length: number; from: number; to: number }[] = []
  values.forEach((value, at) => {
    if (value === null || value === middle) return
    const run = runs.at(-1)
    if (run?.above === value > middle) Object.assign(run, { length: run.length + 1, to: at })
    else runs.push({ above: value > middle, length: 1, from: at, to: at })
  })
  const useful = runs.reduce((sum, { length }) => sum + length, 0)
  const longest = runs.reduce((most, run) => (run.length > most.length ? run : most), { length: 0, from: 0, to: 0 })
  const crossings = Math.max(0, runs.length - 1)
  const limits = useful < FEWEST ? null : { longestRun: Math.round(Math.log2(useful) + 3), crossings: fewestCrossings(useful) }
  return {
    median: middle,
    useful,
    longestRun: longest.length === 0 ? null : { length: longest.length, from: longest.from, to: longest.to },
    crossings,
    limits,
    runTooLong: limits !== null && longest.length > limits.longestRun,
    crossingsTooFew: limits !== null && crossings < limits.crossings,
  }
}
