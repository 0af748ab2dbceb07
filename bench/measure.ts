/** Times in milliseconds over the rounds that count. */
export interface Spread {
  readonly median: number
  readonly least: number
  readonly most: number
}

/** One side of a figure. */
export interface Measured extends Spread {
  readonly unit: 'ms' | 'MiB'
  /** Ninety-five in a hundred lie at or below it; left out where only a few were measured. */
  readonly ninetyFive?: number
}

/** What was measured, beside what in the same run. */
export interface Figure {
  readonly name: string
  readonly ours: Measured
  readonly comparator: Measured
  /** How many times as much as the comparator, by the medians. */
  readonly ratio: number
  readonly aim: string
  readonly met: boolean
  /** What it is held against, in words. */
  readonly beside: string
  /** What else the same run measured, each under a name that ends with its unit where it has one. */
  readonly more?: Readonly<Record<string, number | string>>
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

/** The value ninety-five in a hundred do not exceed (nearest rank). Throws RangeError for none. */
export function ninetyFiveOf(times: readonly number[]): number {
  const found = times.toSorted((a, b) => a - b)[Math.ceil(times.length * 0.95) - 1]
  if (found === undefined) throw new RangeError('nothing was measured')
  return found
}

/** Many times in milliseconds as one side of a figure. */
export function manyTimes(times: readonly number[]): Measured & { readonly ninetyFive: number } {
  return { unit: 'ms', ...spreadOf(times), ninetyFive: ninetyFiveOf(times) }
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
  about: Pick<Figure, 'name' | 'aim' | 'beside' | 'more'>,
  ours: Spread,
  comparator: Spread,
  isMet: (ours: number, comparator: number) => boolean,
): Figure {
  const ratio = ours.median / comparator.median
  const met = isMet(ours.median, comparator.median)
  return { ...about, ours: { unit: 'ms', ...ours }, comparator: { unit: 'ms', ...comparator }, ratio, met }
}
