import type { Course, Measurement } from '../course/index.ts'
import { TOTAL_CV } from '../statistics/index.ts'
import type { Day } from '../time/index.ts'
import { allHold, type Decimal, decimal, decimalText, type Holds } from '../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from './cautions.ts'
import { numberLevel, probabilityFact } from './criterion/probability.ts'
import { type Level, levelFrom, meets, type RiseCriterion } from './criterion/rise.ts'
import { insideNoise, riseFacts } from './criterion/rising.ts'
import { trueRiseBetween } from './criterion/trueRiseBetween.ts'
import { evidenceOf, keptText } from './evidence.ts'
import { ratioOf } from './excess.ts'
import type { Finding } from './finding.ts'
import { type Judgement, type Shown, stateOf } from './judgement.ts'
import { REFERENCE_CHANGE } from './noise.ts'
import { type About, findingsOfRuns } from './runs.ts'
import { withinMonths } from './withinMonths.ts'

/** A rise that counts within so many calendar months, from an earlier value of at least `from` where one is named. */
interface Bar {
  readonly months: number
  readonly criterion: RiseCriterion
  readonly from: Decimal | null
}

/** A series of which any earlier sample is what a later one is held against. */
export interface Evolving {
  readonly of: { readonly name: string; readonly unit: string; readonly samples: readonly Measurement[] }
  readonly bars: readonly Bar[]
  /** Largest rise noise explains, as a share. */
  readonly noise: Decimal
  /** Published variation between samples, as a fraction. */
  readonly cv: number
}

const LEAST_SERUM = decimal('5')
const rise = (share: string, amount: Decimal, strictAmount: boolean): RiseCriterion => ({ share: decimal(share), amount, strictAmount, high: null })

/** Serum M-protein: at least 5 g/L, and 10 % within 6 months from 30 g/L on or 25 % within 12 months (Ravi 2016, Blood Cancer J 6:e454). */
export function evolvingSerum(course: Course): Evolving {
  return {
    of: course.markers['serum-m-protein'],
    bars: [
      { months: 6, criterion: rise('0.1', LEAST_SERUM, false), from: decimal('30') },
      { months: 12, criterion: rise('0.25', LEAST_SERUM, false), from: null },
    ],
    noise: REFERENCE_CHANGE.serum,
    cv: TOTAL_CV['serum-m-protein'],
  }
}

/** dFLC: at least 169 % within 12 months (Wu 2018, Blood Adv 2:1470) and more than the clinic's amount (ours). */
export function evolvingLightChain(course: Course): Evolving {
  const amount = decimal(course.thresholds.evolvingLightChainMgL)
  return {
    of: course.markers.dflc,
    bars: [{ months: 12, criterion: rise('1.69', amount, true), from: null }],
    noise: REFERENCE_CHANGE.lightChain,
    cv: TOTAL_CV['involved-flc'],
  }
}

/** How surely a sample has risen from one earlier sample, and how far above the level that counts it lies. */
interface Rose {
  readonly holds: Holds
  readonly reference: Measurement
  readonly criterion: RiseCriterion
  readonly level: Level
  readonly excess: number
}

// A bar that begins at a value asks only what the earlier value leaves possible from there on.
function judgedFrom({ from }: Bar, { value }: Measurement): Measurement['value'] | null {
  if (from === null || value.low.gte(from)) return value
  return value.high === null || value.high.gte(from) ? { low: from, high: value.high } : null
}

function holdsBy(bar: Bar, reference: Measurement, current: Measurement): Holds {
  const judged = judgedFrom(bar, reference)
  const holds = judged === null ? 'no' : meets(bar.criterion, judged, current.value)
  if (holds === 'no' || !withinMonths(reference.on, current.on, bar.months)) return 'no'
  return judged === reference.value ? holds : 'possible'
}

function stronger(a: Rose | null, b: Rose | null): Rose | null {
  if (a === null || b === null) return a ?? b
  if (a.holds !== b.holds) return a.holds === 'certain' ? a : b
  return b.excess > a.excess ? b : a
}

function roseFrom({ bars }: Evolving, reference: Measurement, current: Measurement): Rose | null {
  const { high } = current.value
  return bars.reduce<Rose | null>((best, bar) => {
    // Most samples fall short by the amount alone, which is asked first because it is quick to tell.
    if (high?.minus(reference.value.low).lt(bar.criterion.amount)) return best
    const holds = holdsBy(bar, reference, current)
    if (holds === 'no') return best
    const level = levelFrom(bar.criterion, judgedFrom(bar, reference)?.low ?? reference.value.low)
    return stronger(best, { holds, reference, criterion: bar.criterion, level, excess: ratioOf(current.value.low, level.at) })
  }, null)
}

/** The strongest rise of sample `at` from any earlier one; with `twice`, from one before the last two samples that both have risen from. */
function strongest(evolving: Evolving, at: number, twice: boolean): Rose | null {
  const { samples } = evolving.of
  const [current, previous] = [samples[at] as Measurement, samples[at - 1]]
  const longest = Math.max(...evolving.bars.map(({ months }) => months))
  let best: Rose | null = null
  for (let before = twice ? at - 2 : at - 1; before >= 0; before -= 1) {
    const reference = samples[before] as Measurement
    if (!withinMonths(reference.on, current.on, longest)) break
    const rose = roseFrom(evolving, reference, current)
    if (rose === null) continue
    const both = twice && previous !== undefined ? (roseFrom(evolving, reference, previous)?.holds ?? 'no') : 'certain'
    if (both !== 'no') best = stronger(best, { ...rose, holds: allHold(rose.holds, both) })
  }
  return best
}

function shown({ of, bars, noise, cv }: Evolving, at: number, { reference, criterion, level, excess }: Rose, isConfirmed: boolean): Shown {
  const current = of.samples[at] as Measurement
  const previous = isConfirmed ? of.samples[at - 1] : undefined
  const told = previous === undefined ? [current] : [previous, current]
  const suspect = unitSuspect(of.samples[at - 1], current) || (previous !== undefined && unitSuspect(of.samples[at - 2], previous))
  return {
    window: 'within-30-days',
    cautions: [
      ...when(!isConfirmed, 'one-sample'),
      ...when(anyCensored(reference.value, previous?.value, current.value), 'censored'),
      ...when(
        told.some((sample) => methodChanged(reference, sample)),
        'method-changed',
      ),
      ...when(suspect, 'unit-suspect'),
      ...when(insideNoise(noise, { value: reference.value, sample: reference }, current), 'inside-noise'),
    ],
    evidence: [
      evidenceOf('reference', of.name, of.unit, reference),
      ...(previous === undefined ? [] : [evidenceOf('previous', of.name, of.unit, previous)]),
      evidenceOf('current', of.name, of.unit, current),
    ],
    facts: {
      value: keptText(current, of.unit),
      on: current.on,
      reference: keptText(reference, of.unit),
      referenceOn: reference.on,
      level: `${level.strict ? '>' : ''}${decimalText(level.at)} ${of.unit}`,
      unit: of.unit,
      amount: `${decimalText(bars[0]?.criterion.amount ?? level.at)} ${of.unit}`,
      ...riseFacts(reference, current),
      ...(suspect ? {} : probabilityFact({ window: of.samples, at, reference, cv, needed: numberLevel(criterion), rise: trueRiseBetween })),
    },
    excess,
  }
}

/**
 * The judgement of each sample: a rise from any earlier one within its months, told against the one it exceeds most; unconfirmed by that sample,
 * confirmed by it and the one before against one sample before both. The window is within 30 days, so a change of method has nothing left to cap.
 */
export function judgeEvolving(evolving: Evolving): (at: number) => Judgement | null {
  return (at) => {
    const once = strongest(evolving, at, false)
    if (once === null) return null
    const twice = strongest(evolving, at, true)
    const state = stateOf(once.holds, twice?.holds ?? 'no')
    if (state === null) return null
    const isConfirmed = state.state === 'confirmed' && twice !== null
    return { ...state, shown: () => shown(evolving, at, isConfirmed ? twice : once, isConfirmed) }
  }
}

/** Findings of such rises. */
export function evolvingFindings(about: About, evolving: Evolving): Finding[] {
  return findingsOfRuns(about, evolving.of.samples, judgeEvolving(evolving))
}

// What a later sample must reach to have risen from this one for certain, whatever lies in its interval; null where the bar asks for more than is known of it.
function certainLevel({ criterion, from }: Bar, { value: { low, high } }: Measurement): Level | null {
  return high === null || (from !== null && low.lt(from)) ? null : levelFrom(criterion, high)
}

/** The lowest level from which on a sample of that day would have risen so for certain; null where no earlier sample is near enough. The rule itself decides. */
export function evolvingLevel({ of, bars }: Evolving, on: Day): Decimal | null {
  const levels = bars.flatMap((bar) =>
    of.samples.flatMap((reference) =>
      reference.on < on && withinMonths(reference.on, on, bar.months) ? (certainLevel(bar, reference)?.at ?? []) : [],
    ),
  )
  const [first, ...others] = levels
  return first === undefined ? null : others.reduce((least, level) => (level.lt(least) ? level : least), first)
}

/** True when the latest sample shows such a rise. */
export function isEvolving(evolving: Evolving): boolean {
  const last = evolving.of.samples.length - 1
  return last > 0 && strongest(evolving, last, false) !== null
}
