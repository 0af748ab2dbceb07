import { type Chance, chancesFrom, sampled, type Truth } from '../../seed/index.ts'
import { type CriterionRule, type Crossing, TRUE_CRITERIA, trueCrossing } from './crossing.ts'
import { historyOf, type Shown } from './historyOf.ts'
import { type Kind, kindOf } from './kinds.ts'
import { drawCourse, type TrueCourse, YEARS } from './trueCourse.ts'
import { type Watched, watch } from './watched.ts'

/** One simulated patient: what was true, when samples were taken, and what was said. */
export interface Simulated extends Watched {
  readonly kind: Kind
  /** Days between two samples, as planned. */
  readonly every: number
  /** Sample days since the line began, oldest first; the first is the baseline, on day 0. */
  readonly days: readonly number[]
  /** True crossings in the years that count; null where the truth never crosses. */
  readonly crossings: Readonly<Record<CriterionRule, Crossing | null>>
}

/** Samples after a true crossing that are looked at. */
const AFTER_CROSSING = 8
/** A sample is taken up to a tenth of the interval early or late (ours). */
const EARLY_OR_LATE = 0.1

/** How a sample shows the truth; the published variation unless a test wants none. */
export type Variation = (truth: Truth, chance: Chance) => Truth

function sampleDays(every: number, until: number, chance: Chance): number[] {
  const days = [0]
  for (let nth = 1; nth * every <= until; nth += 1) {
    const shift = Math.floor(every * EARLY_OR_LATE)
    days.push(nth * every + chance.whole(-shift, shift))
  }
  return days
}

function crossingsOf(course: TrueCourse): Simulated['crossings'] {
  const rules = Object.keys(TRUE_CRITERIA) as CriterionRule[]
  return Object.fromEntries(
    rules.map((rule) => {
      const crossing = trueCrossing(course, TRUE_CRITERIA[rule])
      return [rule, crossing === null || crossing.day > YEARS * 365 ? null : crossing]
    }),
  ) as Record<CriterionRule, Crossing | null>
}

/** The rule that is to find a kind's relapse. */
export function ruleOf(kind: Kind): CriterionRule | null {
  if (kind.family === 'stable') return null
  return kind.family === 'escape' ? 'light-chain-escape' : `pd-${kind.by}`
}

/** Simulates the samples of one truth, and asks the rules on each sample day. A relapse is followed for eight samples after its true crossing. */
export function simulateCourse(kind: Kind, every: number, course: TrueCourse, chance: Chance, vary: Variation = sampled): Simulated {
  const crossings = kind.family === 'stable' ? noCrossings() : crossingsOf(course)
  const rule = ruleOf(kind)
  const crossed = rule === null ? null : crossings[rule]
  const until = crossed === null ? YEARS * 365 : Math.min(course.days - every, crossed.day + (AFTER_CROSSING + 1) * every)
  const days = sampleDays(every, until, chance)
  const samples: Shown[] = days.map((on) => ({ on, values: vary(course.on(on), chance) }))
  return { kind, every, days, crossings, ...watch(historyOf(course, samples), days, every) }
}

function noCrossings(): Simulated['crossings'] {
  return { 'pd-serum': null, 'pd-urine': null, 'pd-light-chain': null, 'light-chain-escape': null }
}

/** The courses of one part of the study: those whose number leaves `part` when divided by `parts`. The same seed gives the same courses however parted. */
export function* simulateAll(courses: number, seed: number, part = 0, parts = 1): Generator<Simulated> {
  const chances = chancesFrom(seed)
  for (let index = 0; index < courses; index += 1) {
    const chance = chances.next().value
    if (index % parts !== part) continue
    const { kind, every } = kindOf(index)
    yield simulateCourse(kind, every, drawCourse(kind, chance), chance)
  }
}
