import library from 'jstat'

const { normal } = library.jStat

/** Share of a standard normal variable below `z`. */
export function normalShareBelow(z: number): number {
  return normal.cdf(z, 0, 1)
}

/** The z with share `p` of a standard normal variable below it, `0 < p < 1`. */
export function normalQuantile(p: number): number {
  return normal.inv(p, 0, 1)
}
