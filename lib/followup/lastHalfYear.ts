import { type Day, day } from '../time/index.ts'

/** The last half of a calendar year that had ended before that day. */
export function lastHalfYear(today: Day): { readonly from: Day; readonly to: Day } {
  const year = Number(today.slice(0, 4))
  return today.slice(5, 7) > '06'
    ? { from: day(`${year}-01-01`), to: day(`${year}-06-30`) }
    : { from: day(`${year - 1}-07-01`), to: day(`${year - 1}-12-31`) }
}
