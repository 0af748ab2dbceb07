import { addTally, emptyTally, type OnTime, onTimeOf, type Tally } from './onTime.ts'

/** Below this a group is not shown by itself. (Issue of this project; five is the usual least cell of public health tables, common practice) */
export const LEAST_SHOWN = 5

/** Stands for the groups that are too small to be shown, together. */
export const OTHERS = 'others'

export interface GroupRow extends OnTime {
  readonly key: string
  /** The groups it stands for where it is `others`; else itself alone. */
  readonly keys: readonly string[]
}

function rowOf(key: string, keys: readonly string[], tally: Tally): GroupRow {
  return { key, keys, ...onTimeOf(tally) }
}

/**
 * One row a group, in the order of their names. Groups in which fewer than five tests were due stand together as `others`. Where that row would tell one small
 * group by itself, or still be below five, the smallest of the other groups joins it: the rows add up to the whole, so nothing that was left out can be
 * worked out from what is shown.
 */
export function groupRows(tallies: ReadonlyMap<string, Tally>): readonly GroupRow[] {
  const bySize = [...tallies].filter(([, { due }]) => due > 0).sort(([a, x], [b, y]) => x.due - y.due || (a < b ? -1 : 1))
  let joined = bySize.filter(([, { due }]) => due < LEAST_SHOWN).length
  const dueOf = (count: number): number => bySize.slice(0, count).reduce((sum, [, { due }]) => sum + due, 0)
  if (joined > 0) while (joined < bySize.length && (joined < 2 || dueOf(joined) < LEAST_SHOWN)) joined += 1
  const shown = bySize.slice(joined).sort(([a], [b]) => (a < b ? -1 : 1))
  const rows = shown.map(([key, tally]) => rowOf(key, [key], tally))
  if (joined === 0) return rows
  const others = emptyTally()
  for (const [, tally] of bySize.slice(0, joined)) addTally(others, tally)
  const keys = bySize
    .slice(0, joined)
    .map(([key]) => key)
    .sort()
  return [...rows, rowOf(OTHERS, keys, others)]
}
