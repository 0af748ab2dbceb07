import { type Crossed, firstAfter } from './delays.ts'
import { type StableSimulated, yearsOf } from './falseFlags.ts'
import { type Rate, rateOf, type Share, shareOf } from './rates.ts'
import { firstSaying } from './runs.ts'
import type { Simulated } from './simulate.ts'
import type { PD_RULES } from './watched.ts'

/** An unconfirmed rise of so many times the minimum is to be looked at within 7 days instead of 30. */
export interface LargeRise {
  readonly times: number
  /** Runs of samples in stable patients that would be hastened. */
  readonly falsely: Rate
  /** True crossings whose first flag after them would be hastened, or is confirmed already. */
  readonly rightly: Share
}

export const TIMES = [1, 1.5, 2, 2.5, 3, 4] as const

function runsAbove({ times }: Simulated, rule: (typeof PD_RULES)[number], least: number): number {
  return times[rule].filter((reached, at) => reached >= least && !((times[rule][at - 1] ?? 0) >= least)).length
}

/** What each choice of `largeRiseTimes` would do for one rule. */
export function largeRises(stable: readonly StableSimulated[], crossings: readonly Crossed[], rule: (typeof PD_RULES)[number]): LargeRise[] {
  const years = stable.reduce((sum, one) => sum + yearsOf(one), 0)
  return TIMES.map((times) => {
    const hastened = crossings.filter((crossed) => {
      const { patient } = crossed
      const at = firstSaying(patient.said[rule], 'ucnm', firstAfter(crossed))
      return at !== null && (patient.said[rule][at] !== 'u' || (patient.times[rule][at] ?? 0) >= times)
    })
    const runs = stable.reduce((sum, one) => sum + runsAbove(one, rule, times), 0)
    return { times, falsely: rateOf(runs, years), rightly: shareOf(hastened.length, crossings.length) }
  })
}
