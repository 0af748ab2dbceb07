import type { BirthDate } from './birth.ts'
import type { Day } from './day.ts'

const YEARS = 5
/** Ages over 89 are one class (HIPAA safe harbour, 45 CFR 164.514(b)(2)(i)(C)). */
const OLDEST = 90

/**
 * The age as a band of five years, `80 to 84`, from 90 on `90 and over`. Counted by calendar years alone: a band that changed on the birthday would tell it
 * to whoever looks every day. (ours)
 */
export function ageBand(birth: BirthDate, on: Day): string {
  const reached = Number(on.slice(0, 4)) - Number(birth.slice(0, 4))
  if (reached >= OLDEST) return `${OLDEST} and over`
  const from = Math.floor(Math.max(reached, 0) / YEARS) * YEARS
  return `${from} to ${from + YEARS - 1}`
}
