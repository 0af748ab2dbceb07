import { type Chance, cloneMass, gompertz, mProteinCurve, type Stretch, type Truth, untreated } from '../../seed/index.ts'
import { BACKGROUND, type Kind, type ShownBy, type StableKind } from './kinds.ts'

/** The truth of one simulated patient, by days since the line began, which is the day of the baseline. */
export interface TrueCourse {
  readonly heavy: 'G' | 'A' | 'none'
  readonly urineSampled: boolean
  /** Values in the unit kept, before any sample varies around them. */
  readonly on: (day: number) => Truth
  /** The last day of `on`. */
  readonly days: number
}

/** Stable patients are followed so long; a true crossing counts in these years. */
export const YEARS = 4
/** Truth reaches a year further, so that what "stays above" means can be seen. */
const DAYS = (YEARS + 1) * 365

/** The clone's mass stops at twice that of the diagnosis, as in the invented cohort (ours). */
const CAPACITY = 2

/** Treatment kills all but `residue` with this halving time, and the rest doubles in `doubling` days at first, along a Gompertz curve. */
function relapsing(residue: number, halving: number, doubling: number): Stretch {
  const rate = Math.LN2 / doubling / Math.log(CAPACITY / residue)
  return { from: -DAYS, sensitive: 1 - residue, kill: Math.LN2 / halving, resistant: residue, growth: { rate, capacity: CAPACITY } }
}

function within(low: number, value: number, high: number): number {
  return Math.min(high, Math.max(low, value))
}

/** Between the two ends, every doubling as likely. */
function byDoublings(low: number, high: number, chance: Chance): number {
  return low * (high / low) ** chance.between(0, 1)
}

interface Makes {
  readonly heavy: TrueCourse['heavy']
  /** g/L, mg/24 h, mg/L at mass 1. */
  readonly serum: number
  readonly urine: number
  readonly freeLight: number
}

function courseOf(makes: Makes, clone: Stretch, alone: (day: number) => number = () => 0): TrueCourse {
  const isotype = { heavy: makes.heavy, light: 'kappa' } as const
  const rest = { background: { kappa: BACKGROUND, lambda: BACKGROUND }, marrow: 0, paresis: 0, anaemia: 0, abnormalities: [] }
  const serumOn = mProteinCurve({ isotype, ...makes, ...rest }, [clone])
  const on = (day: number): Truth => {
    const mass = cloneMass([clone], day - DAYS)
    return {
      'serum-m-protein': serumOn(day - DAYS),
      ...(makes.urine === 0 ? {} : { 'urine-m-protein': makes.urine * mass }),
      'kappa-flc': BACKGROUND + makes.freeLight * mass + alone(day),
      'lambda-flc': BACKGROUND,
    }
  }
  return { heavy: makes.heavy, urineSampled: makes.urine > 0, on, days: DAYS }
}

function stableCourse({ serum, urine, kappa }: StableKind): TrueCourse {
  return courseOf({ heavy: serum > 0 ? 'G' : 'none', serum, urine, freeLight: kappa - BACKGROUND }, untreated(-DAYS, 1))
}

/** Amounts at diagnosis: medians and spreads of the invented cohort (ours). */
function made(by: ShownBy, chance: Chance): Makes {
  if (by === 'light-chain') return { heavy: 'none', serum: 0, urine: 0, freeLight: within(300, chance.logNormal(1500, 0.8), 8000) }
  const freeLight = within(20, chance.logNormal(150, 0.9), 1500)
  if (by === 'urine') return { heavy: 'none', serum: 0, urine: within(220, chance.logNormal(900, 0.6), 5000), freeLight }
  return { heavy: chance.happens(0.7) ? 'G' : 'A', serum: within(22, chance.logNormal(38, 0.35), 72), urine: 0, freeLight }
}

/** From a partial to a very deep response: 40 % to 0.5 % of the mass stay (ours). Doubling 30 to 365 days, halving 15 to 45 (ours). */
function relapseCourse(by: ShownBy, chance: Chance): TrueCourse {
  const makes = made(by, chance)
  return courseOf(makes, relapsing(byDoublings(0.005, 0.4, chance), chance.between(15, 45), byDoublings(30, 365, chance)))
}

/** A second clone that makes light chains alone rises from 1 to 5 mg/L, doubling in 30 to 180 days; what is left of the first one stays (ours). */
function escapeCourse(chance: Chance): TrueCourse {
  const makes = made('serum', chance)
  const residue = chance.between(0.1, 0.4)
  const clone: Stretch = { ...untreated(-DAYS, residue), sensitive: 1 - residue, kill: Math.LN2 / chance.between(15, 45) }
  const [start, most] = [chance.between(1, 5), 5000]
  const rate = Math.LN2 / byDoublings(30, 180, chance) / Math.log(most / start)
  return courseOf(makes, clone, (day) => gompertz(start, most, rate, day))
}

/** Draws the truth of one patient. */
export function drawCourse(kind: Kind, chance: Chance): TrueCourse {
  if (kind.family === 'stable') return stableCourse(kind)
  return kind.family === 'relapse' ? relapseCourse(kind.by, chance) : escapeCourse(chance)
}
