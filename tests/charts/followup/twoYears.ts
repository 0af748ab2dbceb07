import { type CohortCounts, type Figures, figuresOf, noCounts, type Period, type PlanChange } from '../../../lib/followup/index.ts'
import { day } from '../../../lib/time/index.ts'
import { type Chance, chancesFrom } from '../../../seed/index.ts'

/** What a clinic of two years is like; all of it invented. */
export interface Clinic {
  readonly seed?: number
  /** Tests due in each month: from, to. */
  readonly due?: readonly [least: number, most: number]
  /** The chance of a test to be on time, month by month from 0 to 23. */
  readonly onTime?: (month: number) => number
  /** Visits rather than tests are on time or not: so many tests stand or fall together. */
  readonly together?: number
  readonly findings?: number
  readonly planChanges?: readonly PlanChange[]
}

export const TWO_YEARS: Period = { from: day('2024-07-01'), to: day('2026-06-30'), cutOff: day('2026-07-31') }
export const SECOND_PLAN: readonly PlanChange[] = [{ version: '2', from: day('2025-10-01') }]

const MONTHS = Array.from({ length: 24 }, (_, at) => `${2024 + Math.floor((at + 6) / 12)}-${String(((at + 6) % 12) + 1).padStart(2, '0')}`)
const MISSED_OF_LATE = 0.2

function fillMonths(counts: CohortCounts, chance: Chance, { due: [least, most] = [60, 200], onTime = () => 0.84, together = 1 }: Clinic): void {
  for (const [at, month] of MONTHS.entries()) {
    const tally = { due: 0, onTime: 0, late: 0, missed: 0, daysLate: [] as number[] }
    for (let visits = Math.round(chance.between(least, most) / together); visits > 0; visits--) {
      const good = chance.between(0, 1) < onTime(at)
      const missed = !good && chance.between(0, 1) < MISSED_OF_LATE
      const days = 8 + Math.floor(-Math.log(1 - chance.between(0, 0.999)) * 16)
      tally.due += together
      if (good) tally.onTime += together
      else if (missed) tally.missed += together
      else {
        tally.late += together
        for (let test = 0; test < together; test++) tally.daysLate.push(days)
      }
    }
    counts.by.month.set(month, tally)
    counts.total.due += tally.due
    counts.total.onTime += tally.onTime
    counts.total.late += tally.late
    counts.total.missed += tally.missed
    counts.total.daysLate.push(...tally.daysLate)
  }
}

function fillFindings(counts: CohortCounts, chance: Chance, findings: number): void {
  for (let at = 0; at < findings; at++) {
    const over = chance.between(0, 1) < 0.93
    counts.flagged.found += 1
    counts.flagged.answered += over ? 1 : 0
    counts.flagged.toReview.push({ days: Math.floor(over ? -Math.log(1 - chance.between(0, 0.999)) * 6 + 1 : chance.between(20, 300)), over })
    if (at % 3 === 0) counts.flagged.toRepeat.push({ days: Math.floor(over ? 21 + chance.between(0, 1) ** 2 * 60 : chance.between(20, 200)), over })
  }
}

/** Figures of two invented years. */
export function twoYears(clinic: Clinic = {}): Figures {
  const counts = noCounts()
  const chance = chancesFrom(clinic.seed ?? 7).next().value
  fillMonths(counts, chance, clinic)
  fillFindings(counts, chance, clinic.findings ?? 160)
  return figuresOf(TWO_YEARS, counts, { held: [], intake: new Map() }, clinic.planChanges ?? SECOND_PLAN)
}

/** Steady, but for one bad month. */
export const oneBadMonth = (): Figures => twoYears({ onTime: (month) => (month === 13 ? 0.6 : 0.84) })
/** Better from a change of the plan on. */
export const shifted = (): Figures => twoYears({ onTime: (month) => (month < 15 ? 0.78 : 0.9), seed: 11 })
/** Nothing but chance. */
export const steady = (): Figures => twoYears({ onTime: () => 0.84, seed: 3, planChanges: [] })
/** Four tests of a visit go together. */
export const overdispersed = (): Figures => twoYears({ onTime: (month) => (month % 3 === 0 ? 0.76 : 0.86), seed: 5, together: 4, due: [200, 400] })
