/** What is asked of the server while it is watched. */
export const WORK = ['list', 'patient', 'intake', 'review'] as const
export type Work = (typeof WORK)[number]

/** How long each request took, in milliseconds, and how many milliseconds after the beginning it was sent. */
export interface Asked {
  readonly work: Work
  readonly at: number
  readonly ms: number
}

/** Times of one kind of work, in milliseconds. */
export interface Percentiles {
  readonly count: number
  readonly p50: number
  readonly p95: number
  readonly p99: number
  readonly most: number
}

/** By nearest rank. Null for none. */
export function percentilesOf(times: readonly number[]): Percentiles | null {
  const sorted = times.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN
  return sorted.length === 0 ? null : { count: sorted.length, p50: at(0.5), p95: at(0.95), p99: at(0.99), most: at(1) }
}

/** What happened in each third of the time, for what grows or slows down shows as the last beside the first. */
export function inThirds<T extends { readonly at: number }>(all: readonly T[], lastsMs: number): readonly (readonly T[])[] {
  return [0, 1, 2].map((third) => all.filter(({ at }) => Math.min(2, Math.floor((3 * at) / lastsMs)) === third))
}
