import type { BirthDate } from '../time/index.ts'

/** The more precise of two dates of birth that agree: a year agrees with every day in it. Null where they do not agree. */
export function agreedBirth(told: BirthDate, known: BirthDate): BirthDate | null {
  if (told.startsWith(known)) return told
  return known.startsWith(told) ? known : null
}
