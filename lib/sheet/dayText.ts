import type { BirthDate, Day } from '../time/index.ts'

const MONTHS = ['January', 'February', 'March', 'April', 'May', 'June', 'July', 'August', 'September', 'October', 'November', 'December']

/** A day as it is said: `4 March 2026`; `March 1950` and `1950` where no more is known of a birth. Digits alone could be read the other way round. */
export function dayText(of: Day | BirthDate): string {
  const [year = '', month, ofMonth] = of.split('-')
  return [ofMonth === undefined ? null : String(Number(ofMonth)), month === undefined ? null : MONTHS[Number(month) - 1], year]
    .filter((part) => part !== null)
    .join(' ')
}
