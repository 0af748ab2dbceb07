import type { StableKind } from './kinds.ts'
import { type Rate, rateOf, type Share, shareOf } from './rates.ts'
import { runsOf } from './runs.ts'
import type { Simulated } from './simulate.ts'
import type { Said, Studied } from './watched.ts'

const DAYS_A_YEAR = 365.25
const TWO_YEARS = 2 * DAYS_A_YEAR

/** How one rule, read in one way, speaks of a patient. */
export type Reading = (simulated: Simulated) => Said

/** False flags of one reading among patients in whom nothing changes. A run of consecutive flagged samples counts once. */
export interface FalseFlags {
  readonly patients: number
  /** Runs that were confirmed at some sample. */
  readonly confirmed: Rate
  /** Runs that were not. */
  readonly unconfirmed: Rate
  readonly any: Rate
  /** Patients flagged, and falsely confirmed, at least once in the first two years. */
  readonly everIn2: Share
  readonly confirmedIn2: Share
}

export function yearsOf({ days }: Simulated): number {
  return (days.at(-1) ?? 0) / DAYS_A_YEAR
}

/** Runs among the samples of the first two years, as they would be told then. */
function runsIn2(said: Said, days: readonly number[]) {
  return runsOf(said.slice(0, days.filter((day) => day <= TWO_YEARS).length))
}

export function falseFlags(patients: readonly Simulated[], reading: Reading): FalseFlags {
  const years = patients.reduce((sum, patient) => sum + yearsOf(patient), 0)
  const runs = patients.flatMap((patient) => runsOf(reading(patient)))
  const early = patients.map((patient) => runsIn2(reading(patient), patient.days))
  const confirmed = runs.filter((run) => run.confirmed).length
  return {
    patients: patients.length,
    confirmed: rateOf(confirmed, years),
    unconfirmed: rateOf(runs.length - confirmed, years),
    any: rateOf(runs.length, years),
    everIn2: shareOf(early.filter((found) => found.length > 0).length, patients.length),
    confirmedIn2: shareOf(early.filter((found) => found.some((run) => run.confirmed)).length, patients.length),
  }
}

/** Runs that begin in year 1, 2, ... of follow-up, per 100 patient-years of that year. */
export function byYear(patients: readonly Simulated[], reading: Reading, years: number): Rate[] {
  return Array.from({ length: years }, (_, year) => {
    const [from, to] = [year * DAYS_A_YEAR, (year + 1) * DAYS_A_YEAR]
    let [events, time] = [0, 0]
    for (const patient of patients) {
      time += Math.max(0, Math.min(to, patient.days.at(-1) ?? 0) - from) / DAYS_A_YEAR
      events += runsOf(reading(patient)).filter((run) => {
        const began = patient.days[run.from] ?? 0
        return began > from && began <= to
      }).length
    }
    return rateOf(events, time)
  })
}

export type StableSimulated = Simulated & { readonly kind: StableKind }

export function stableOf(all: readonly Simulated[]): StableSimulated[] {
  return all.filter((one): one is StableSimulated => one.kind.family === 'stable')
}

/** The rule a group of stable patients puts to the test first. */
export const RULE_OF_GROUP: Readonly<Record<StableKind['group'], Exclude<Studied, 'significant-relapse' | 'projected-crossing'>>> = {
  serum: 'pd-serum',
  urine: 'pd-urine',
  'light chains only': 'pd-light-chain',
  'light chains beside serum': 'light-chain-escape',
}
