import library from 'jstat'
import type { Observed } from './observed.ts'
import { tally } from './tally.ts'

const { chisquare, inv } = library.jStat

export interface LogRank {
  /** Null, as `p`, where nothing can be compared: no event while two groups were at risk. */
  readonly chiSquare: number | null
  /** Groups at risk at any event, less one. */
  readonly degrees: number
  /** To about ten decimals: 0 means below that. */
  readonly p: number | null
  /** As given. */
  readonly groups: readonly { readonly size: number; readonly observed: number; readonly expected: number }[]
}

interface Sums {
  readonly observed: number[]
  readonly expected: number[]
  readonly covariance: number[][]
}

/** One tally for all: outcomes 2g (open) and 2g + 1 (the event) are those of group g. */
function tallyOf(groups: readonly Observed[]) {
  const size = groups.reduce((sum, { times }) => sum + times.length, 0)
  const [times, outcomes] = [new Float64Array(size), new Float64Array(size)]
  let place = 0
  groups.forEach((group, at) => {
    if (group.times.length !== group.outcomes.length) throw new RangeError(`${group.times.length} times have ${group.outcomes.length} outcomes`)
    for (let one = 0; one < group.times.length; one++, place++) {
      const outcome = group.outcomes[one] as number
      if (outcome !== 0 && outcome !== 1) throw new RangeError(`${outcome} is no outcome from 0 to 1`)
      times[place] = group.times[one] as number
      outcomes[place] = 2 * at + outcome
    }
  })
  return tally({ times, outcomes }, 2 * groups.length)
}

function sumsOf(groups: readonly Observed[]): Sums {
  const { times, counts } = tallyOf(groups)
  const atRisk = groups.map((group) => group.times.length)
  const sums: Sums = { observed: atRisk.map(() => 0), expected: atRisk.map(() => 0), covariance: atRisk.map(() => atRisk.map(() => 0)) }
  times.forEach((_, at) => {
    const happened = groups.map((_group, g) => counts[2 * g + 1]?.[at] ?? 0)
    const [all, events] = [atRisk.reduce((sum, n) => sum + n, 0), happened.reduce((sum, d) => sum + d, 0)]
    const spread = all > 1 ? (events * (all - events)) / (all - 1) : 0
    atRisk.forEach((n, g) => {
      sums.observed[g] = (sums.observed[g] ?? 0) + (happened[g] ?? 0)
      sums.expected[g] = (sums.expected[g] ?? 0) + (events * n) / all
      const row = sums.covariance[g] ?? []
      if (events > 0)
        atRisk.forEach((m, h) => {
          row[h] = (row[h] ?? 0) + spread * ((n / all) * ((g === h ? 1 : 0) - m / all))
        })
    })
    happened.forEach((d, g) => {
      atRisk[g] = (atRisk[g] ?? 0) - d - (counts[2 * g]?.[at] ?? 0)
    })
  })
  return sums
}

/**
 * The log-rank test over two groups or more, of outcomes 0 (open, censored) and 1 (the event): whether they differ, not by how much. A group never at risk at an
 * event counts for nothing. Throws RangeError for fewer than two groups and as Kaplan-Meier does. Mantel, Cancer Chemother Rep 1966;50:163; Peto and Peto,
 * J R Stat Soc A 1972;135:185.
 */
export function logRank(groups: readonly Observed[]): LogRank {
  if (groups.length < 2) throw new RangeError('one group has none to be compared with')
  const { observed, expected, covariance } = sumsOf(groups)
  const told = groups.map(({ times }, g) => ({ size: times.length, observed: observed[g] ?? 0, expected: expected[g] ?? 0 }))
  // The differences sum to 0, so one group says nothing new: the last is left out.
  const kept = told.flatMap(({ expected: e }, g) => (e > 0 ? [g] : [])).slice(0, -1)
  if (kept.length === 0 || kept.every((g) => covariance[g]?.[g] === 0)) return { chiSquare: null, degrees: kept.length, p: null, groups: told }
  const inverse = inv(kept.map((g) => kept.map((h) => covariance[g]?.[h] ?? 0)))
  const excess = kept.map((g) => (observed[g] ?? 0) - (expected[g] ?? 0))
  const chiSquare = excess.reduce((sum, a, i) => sum + excess.reduce((row, b, j) => row + a * b * (inverse[i]?.[j] ?? 0), 0), 0)
  return { chiSquare, degrees: kept.length, p: Math.max(0, 1 - chisquare.cdf(chiSquare, kept.length)), groups: told }
}
