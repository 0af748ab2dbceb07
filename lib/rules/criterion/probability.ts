import type { Measurement } from '../../course/index.ts'
import { daysBetween } from '../../time/index.ts'
import { isExact } from '../../units/index.ts'
import { methodChanged, unitSuspect } from '../cautions.ts'
import type { RiseCriterion } from './rise.ts'
import { type TrueRise, trueRise } from './trueRise.ts'

/** The level a criterion asks for above a reference, on ordinary numbers: a probability decides no finding. */
export function numberLevel({ share, amount, high }: RiseCriterion): (reference: number) => number {
  const [part, least] = [Number(share), Number(amount)]
  const [from, fixed] = high === null ? [Number.POSITIVE_INFINITY, 0] : [Number(high.from), Number(high.amount)]
  return (reference) => {
    const level = reference + Math.max(reference * part, least)
    return reference >= from ? Math.min(level, reference + fixed) : level
  }
}

/** What a probability is asked about: the sample `at` of a window, held against an earlier one of it. */
export interface ProbabilityQuestion {
  readonly window: readonly Measurement[]
  readonly at: number
  readonly reference: Measurement
  /** Published coefficient of variation between samples of one patient, as a fraction; none published, no probability. */
  readonly cv: number | undefined
  readonly needed: (reference: number) => number
  /** How the rise is understood; from the level around the reference where left out. */
  readonly rise?: TrueRise
}

/**
 * The fact `probability`, 0.00 to 1.00: that the true rise meets the criterion. Empty where no variation is published, where the reference, the
 * current value or the one before is an interval, the first two also where 0 or below, and where laboratory, method or unit may differ, of which
 * the published variation knows nothing.
 */
export function probabilityFact({ window, at, reference, cv, needed, rise = trueRise }: ProbabilityQuestion): { readonly probability?: string } {
  const [current, before] = [window[at], window[at - 1]]
  if (cv === undefined || current === undefined || unitSuspect(before, current)) return {}
  if (before !== undefined && !isExact(before.value)) return {}
  const comparable = window.slice(0, at + 1).filter((one) => isExact(one.value) && one.value.low.gt(0) && !methodChanged(one, current))
  const held = comparable.findIndex(({ on }) => on === reference.on)
  if (held === -1 || comparable.at(-1) !== current) return {}
  const samples = comparable.map(({ on, value }) => ({ day: daysBetween(reference.on, on), log: Math.log(Number(value.low)) }))
  return { probability: rise(samples, held, Math.sqrt(Math.log1p(cv ** 2)), needed).toFixed(2) }
}
