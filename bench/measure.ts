/** Times in milliseconds over the rounds that count. */
export interface Spread {
  readonly median: number
  readonly least: number
  readonly most: number
}

/** What was measured, beside what in the same run. Times are medians in milliseconds. */
export interface Figure {
  readonly name: string
  readonly ours: number
  readonly comparator: number
  /** How many times as long as the comparator. */
  readonly ratio: number
  readonly aim: string
  readonly met: boolean
  /** What it is held against, in words. */
  readonly beside: string
  readonly spread: { readonly ours: Spread; readonly comparator: Spread }
}

/** Median, least and most of at least one time. Throws RangeError for none. */
export function spreadOf(times: readonly number[]): Spread {
  const sorted = times.toSorted((a, b) => a - b)
  const middle = Math.floor(sorted.length / 2)
  const [low, high] = [sorted.at(sorted.length % 2 === 1 ? middle : middle - 1), sorted[middle]]
  const [least, most] = [sorted[0], sorted.at(-1)]
  if (low === undefined || high === undefined || least === undefined || most === undefined) throw new RangeError('nothing was measured')
  return { median: (low + high) / 2, least, most }
}

export async function timed(work: () => unknown): Promise<number> {
  const began = performance.now()
  await work()
  return performance.now() - began
}

/**
 * Runs a round again and again and collects what each measured, by name. The first round warms caches and is dropped. Every thing of a round is
 * measured in every round, so that what else the machine does falls on all of them.
 */
export async function rounds<Name extends string>(
  count: number,
  round: () => Promise<Readonly<Record<Name, number>>>,
): Promise<Record<Name, Spread>> {
  await round()
  const measured: Readonly<Record<Name, number>>[] = []
  for (let done = 0; done < count; done++) measured.push(await round())
  const names = Object.keys(measured[0] ?? {}) as Name[]
  return Object.fromEntries(names.map((name) => [name, spreadOf(measured.map((times) => times[name]))])) as Record<Name, Spread>
}

/** A figure from two spreads; `isMet` is asked with both medians. */
export function figure(
  about: Pick<Figure, 'name' | 'aim' | 'beside'>,
  ours: Spread,
  comparator: Spread,
  isMet: (ours: number, comparator: number) => boolean,
): Figure {
  const ratio = ours.median / comparator.median
  const met = isMet(ours.median, comparator.median)
  return { ...about, ours: ours.median, comparator: comparator.median, ratio, met, spread: { ours, comparator } }
}
