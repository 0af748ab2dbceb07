import { type Checked, checkObserved, type Observed } from './observed.ts'

/** How many cases of each outcome lie at each distinct time, earliest first. */
export interface Tally {
  readonly size: number
  readonly times: readonly number[]
  /** By outcome, then by the place of the time. */
  readonly counts: readonly (readonly number[])[]
}

type Counted = Omit<Tally, 'size'>

/** A century of days and more: tables so long are counted into, one place a day. */
const LONGEST_TABLE = 100_000

function countByDay({ times, outcomes }: Observed, { greatest, sizes }: Checked): Counted {
  const tables = sizes.map(() => new Uint32Array(greatest + 1))
  for (let at = 0; at < times.length; at++) {
    const table = tables[outcomes[at] as number] as Uint32Array
    const day = times[at] as number
    table[day] = (table[day] as number) + 1
  }
  const seen = Array.from({ length: greatest + 1 }, (_, day) => day).filter((day) => tables.some((table) => table[day] !== 0))
  return { times: seen, counts: tables.map((table) => seen.map((day) => table[day] as number)) }
}

/** Numbers in typed arrays sort natively; sorted ones merge in one walk. */
function countBySorting({ times, outcomes }: Observed, { sizes }: Checked): Counted {
  const each = sizes.map((size) => new Float64Array(size))
  const next = sizes.map(() => 0)
  for (let at = 0; at < times.length; at++) {
    const outcome = outcomes[at] as number
    const place = next[outcome] as number
    const table = each[outcome] as Float64Array
    table[place] = times[at] as number
    next[outcome] = place + 1
  }
  for (const of of each) of.sort()
  next.fill(0)
  const seen: number[] = []
  const counts = each.map((): number[] => [])
  for (;;) {
    const time = each.reduce((least, of, kind) => Math.min(least, of[next[kind] as number] ?? Number.POSITIVE_INFINITY), Number.POSITIVE_INFINITY)
    if (time === Number.POSITIVE_INFINITY) return { times: seen, counts }
    seen.push(time)
    each.forEach((of, kind) => {
      const from = next[kind] as number
      let to = from
      while (of[to] === time) to++
      next[kind] = to
      counts[kind]?.push(to - from)
    })
  }
}

/**
 * Counts by time and outcome, of the outcomes 0 to `kinds` - 1: of millions of whole days in some hundredths of a second, of other numbers by sorting. Throws RangeError
 * as `checkObserved` does.
 */
export function tally(observed: Observed, kinds: number): Tally {
  const checked = checkObserved(observed, kinds)
  const counted = checked.whole && checked.greatest < LONGEST_TABLE ? countByDay(observed, checked) : countBySorting(observed, checked)
  return { size: observed.times.length, ...counted }
}
