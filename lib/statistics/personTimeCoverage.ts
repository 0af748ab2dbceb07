import { normalQuantile } from './normal.ts'
import type { Interval } from './shareBand.ts'
import { studentQuantile } from './studentQuantile.ts'
import { wilsonEnds } from './wilsonInterval.ts'

/** Days of one person, 0 <= covered <= total. */
export interface PersonTime {
  readonly covered: number
  readonly total: number
}

export interface Coverage {
  /** People with any day. */
  readonly people: number
  readonly covered: number
  readonly total: number
  /** Covered of all days, as a fraction. */
  readonly share: number
  /** How many times more the share varies than if every day were drawn by itself. Null for one person, and where all days or none are covered. */
  readonly designEffect: number | null
  /** Null for fewer than 20 people, and where the days covered, or those not, are worth fewer than 10 independent ones: nothing then tells how people differ. */
  readonly interval: Interval | null
}

/** An interval rests on how people differ: with fewer, or with fewer effective days on either side, it was wrong far too often in trials. (ours) */
const FEWEST = { people: 20, effectiveDays: 10 }

/**
 * The share of person-days that are covered. A person's days go together, so an interval that counted days would be far too narrow: days are divided by the design
 * effect of the ratio over people (at least 1), a little more because it is estimated from so many people, and Wilson's interval is taken of what remains. Null for
 * no day; throws RangeError for days that are none. Rao and Scott, Biometrics 1992;48:577; degrees of freedom by Korn and Graubard, Survey Methodology 1998;24:193;
 * Wilson on effective sizes as recommended by Franco, Little, Louis and Slud, J Surv Stat Methodol 2019;7:334.
 */
export function personTimeCoverage(persons: readonly PersonTime[], confidence = 0.95): Coverage | null {
  if (persons.some(({ covered, total }) => !(covered >= 0 && covered <= total && Number.isFinite(total)))) {
    throw new RangeError('the covered days of a person lie between 0 and all of them')
  }
  const counted = persons.filter(({ total }) => total > 0)
  const people = counted.length
  if (people === 0) return null
  const [covered, total] = [counted.reduce((sum, one) => sum + one.covered, 0), counted.reduce((sum, one) => sum + one.total, 0)]
  const share = covered / total
  const told = { people, covered, total, share }
  if (people < 2 || share === 0 || share === 1) return { ...told, designEffect: null, interval: null }
  const squares = counted.reduce((sum, one) => sum + (one.covered - share * one.total) ** 2, 0)
  const variance = ((people / (people - 1)) * squares) / total ** 2
  const designEffect = Math.max(1, (variance * total) / (share * (1 - share)))
  const tail = (1 + confidence) / 2
  const effective = (normalQuantile(tail) / studentQuantile(tail, people - 1)) ** 2 / designEffect
  const enough = people >= FEWEST.people && Math.min(covered, total - covered) * effective >= FEWEST.effectiveDays
  return { ...told, designEffect, interval: enough ? wilsonEnds(covered * effective, total * effective, confidence) : null }
}
