import library from 'jstat'

const { studentt } = library.jStat

/** The t with probability `p` below it, `0 < p < 1`, for one degree of freedom or more; to about eight digits. */
export function studentQuantile(p: number, degrees: number): number {
  return studentt.inv(p, degrees)
}
