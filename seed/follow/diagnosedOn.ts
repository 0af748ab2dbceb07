import type { Offset } from '../calendar.ts'
import type { Chance } from '../chance.ts'

/** The earliest day of diagnosis the cohort's years leave room for. */
function earliest(years: number): Offset {
  return 5 - Math.floor(years * 365)
}

/** A day of diagnosis at least `least` days ago, or as long ago as the cohort's years allow. */
export function diagnosedOn(least: number, years: number, chance: Chance): Offset {
  const longest = -earliest(years)
  return -chance.whole(Math.min(least, longest), longest)
}

/** The day of diagnosis `ago` days ago, or as long ago as the cohort's years allow. */
export function diagnosedAgo(ago: number, years: number): Offset {
  return Math.max(-ago, earliest(years))
}
