import type { Crossed } from './delays.ts'
import type { Reading } from './falseFlags.ts'
import { medianOf, type Spread } from './median.ts'
import { type Share, shareOf } from './rates.ts'
import { firstSaying } from './runs.ts'

/** How far one rule comes before another, counted from the true nadir on; a patient it does not come first in has a lead of 0. */
export interface Leads {
  readonly crossings: number
  /** Share of patients in whom it came first. */
  readonly first: Share
  /** Sampling intervals before the first `confirmed`, over all patients. */
  readonly intervals: Spread
  /** The same, and days, over those in whom it came first; null for none. */
  readonly whereFirst: Spread | null
  readonly daysWhereFirst: Spread | null
  /** Share in whom it came before the truth crossed, and days before that where it did. */
  readonly beforeCrossing: Share
  readonly daysBeforeCrossing: Spread | null
}

function medianAbove0(values: readonly number[]): Spread | null {
  const above = values.filter((value) => value > 0)
  return above.length === 0 ? null : medianOf(above)
}

/**
 * Lead of `early` over the first `confirmed` of `late`. A flag counts once the truth has begun to rise again: what was said before the true nadir belongs
 * to another story. Where `late` never confirms while it is looked for, the last sample stands for its day, so the lead is told too short.
 */
export function leads(crossings: readonly Crossed[], early: Reading, late: Reading): Leads {
  const found = crossings.map(({ patient, crossing }) => {
    const risen = patient.days.findIndex((day) => day > crossing.nadir)
    const dayOf = (at: number | null) => (at === null ? null : (patient.days[at] ?? null))
    const last = patient.days.at(-1) ?? 0
    const flagged = dayOf(firstSaying(early(patient), 'ucnm', risen)) ?? Number.POSITIVE_INFINITY
    const confirmed = dayOf(firstSaying(late(patient), 'cn', risen)) ?? last
    return { lead: Math.max(0, confirmed - flagged), ahead: Math.max(0, crossing.day - flagged), every: patient.every }
  })
  return {
    crossings: crossings.length,
    first: shareOf(found.filter(({ lead }) => lead > 0).length, crossings.length),
    intervals: medianOf(found.map(({ lead, every }) => lead / every)),
    whereFirst: medianAbove0(found.map(({ lead, every }) => lead / every)),
    daysWhereFirst: medianAbove0(found.map(({ lead }) => lead)),
    beforeCrossing: shareOf(found.filter(({ ahead }) => ahead > 0).length, crossings.length),
    daysBeforeCrossing: medianAbove0(found.map(({ ahead }) => ahead)),
  }
}
