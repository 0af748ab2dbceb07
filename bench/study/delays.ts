import type { Crossing } from './crossing.ts'
import type { Reading } from './falseFlags.ts'
import { medianOf, type Spread } from './median.ts'
import { type Share, shareOf } from './rates.ts'
import { firstSaying, type Letters } from './runs.ts'
import { ruleOf, type Simulated } from './simulate.ts'

/** A patient whose truth crossed, with the crossing of the rule that is to find it. */
export interface Crossed {
  readonly patient: Simulated
  readonly crossing: Crossing
}

/** True, sustained crossings with two samples or more after them. */
export function crossedOf(all: readonly Simulated[]): Crossed[] {
  return all.flatMap((patient) => {
    const rule = ruleOf(patient.kind)
    const crossing = rule === null ? null : patient.crossings[rule]
    if (crossing === null || !crossing.sustained) return []
    return patient.days.filter((day) => day >= crossing.day).length < 2 ? [] : [{ patient, crossing }]
  })
}

/** Position of the first sample on or after the true crossing. */
export function firstAfter({ patient, crossing }: Crossed): number {
  return patient.days.findIndex((day) => day >= crossing.day)
}

/** How long a true crossing waits. */
export interface Delays {
  readonly crossings: number
  /** Share said something of at the last sample before the crossing already. */
  readonly before: Share
  /** Share said something of by the first, second, ... sample after it, while it was looked for. */
  readonly byNth: readonly Share[]
  /** Days from the crossing to the first sample on or after it that says something, and to the first that says `confirmed`. */
  readonly toFlag: Spread
  readonly toConfirmed: Spread
  /** The same in sampling intervals. */
  readonly toConfirmedIntervals: Spread
  readonly confirmedAtAll: Share
}

const NTH = 6

function waited(crossed: Crossed, reading: Reading, letters: Letters): number {
  const { patient, crossing } = crossed
  const at = firstSaying(reading(patient), letters, firstAfter(crossed))
  return at === null ? Number.POSITIVE_INFINITY : (patient.days[at] ?? 0) - crossing.day
}

export function delays(crossings: readonly Crossed[], reading: Reading): Delays {
  const nth = crossings.map((crossed) => {
    const first = firstAfter(crossed)
    const at = firstSaying(reading(crossed.patient), 'ucnm', first)
    return at === null ? Number.POSITIVE_INFINITY : at - first + 1
  })
  const before = crossings.filter((crossed) => (reading(crossed.patient)[firstAfter(crossed) - 1] ?? '-') !== '-').length
  const toConfirmed = crossings.map((crossed) => waited(crossed, reading, 'cn'))
  return {
    crossings: crossings.length,
    before: shareOf(before, crossings.length),
    byNth: Array.from({ length: NTH }, (_, at) => shareOf(nth.filter((found) => found <= at + 1).length, crossings.length)),
    toFlag: medianOf(crossings.map((crossed) => waited(crossed, reading, 'ucnm'))),
    toConfirmed: medianOf(toConfirmed),
    toConfirmedIntervals: medianOf(toConfirmed.map((days, at) => days / (crossings[at]?.patient.every ?? 1))),
    confirmedAtAll: shareOf(toConfirmed.filter(Number.isFinite).length, crossings.length),
  }
}
