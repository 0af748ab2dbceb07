import { type Course, lightChainPairs, type Measurement, ratioAbnormal, ratioIntervalFor, ratioIntervals } from '../../course/index.ts'
import { TOTAL_CV } from '../../statistics/index.ts'
import type { Decimal, Holds } from '../../units/index.ts'
import { when } from '../cautions.ts'
import type { Caution } from '../finding.ts'
import { REFERENCE_CHANGE } from '../noise.ts'
import { runsAsActive } from '../phases.ts'
import { type Level, levelFrom, RISES } from './rise.ts'
import type { Rising } from './rising.ts'

/** Progression by serum M-protein. */
export function serumRise(course: Course): Rising {
  return {
    of: course.markers['serum-m-protein'],
    criterion: RISES.serum,
    noise: REFERENCE_CHANGE.serum,
    cv: TOTAL_CV['serum-m-protein'],
    freeLightChains: false,
    hastens: course.thresholds.largeRiseTimes,
  }
}

/**
 * Progression by the quantitative immunoglobulin of the M-protein's class, by the criterion of the serum M-protein; null where it is not followed, or
 * where electrophoresis measured the protein at baseline. No variation is published for it here, so none is called noise.
 */
export function immunoglobulinRise(course: Course): Rising | null {
  const { immunoglobulin: of, measurableBy, thresholds } = course
  if (of === null || measurableBy.includes('serum')) return null
  const criterion = of.unit === 'mg/L' ? RISES.serumMgL : RISES.serum
  return { of, criterion, noise: null, freeLightChains: false, hastens: thresholds.largeRiseTimes }
}

/** The level a quantitative immunoglobulin must reach above a lowest value, in its unit; null where no rule runs on it. */
export function immunoglobulinLevel(course: Course, lowest: Decimal): Level | null {
  const rise = runsAsActive(course) ? immunoglobulinRise(course) : null
  return rise === null ? null : levelFrom(rise.criterion, lowest)
}

/** Progression by urine M-protein. */
export function urineRise(course: Course): Rising {
  return {
    of: course.markers['urine-m-protein'],
    criterion: RISES.urine,
    noise: REFERENCE_CHANGE.urine,
    cv: TOTAL_CV['urine-m-protein'],
    freeLightChains: false,
    hastens: course.thresholds.largeRiseTimes,
  }
}

/** Progression by dFLC. The noise is that of the involved chain, which makes up most of the difference (ours). */
export function lightChainRise(course: Course): Rising {
  return {
    of: course.markers.dflc,
    criterion: RISES.dflc,
    noise: REFERENCE_CHANGE.lightChain,
    cv: TOTAL_CV['involved-flc'],
    freeLightChains: true,
    hastens: course.thresholds.largeRiseTimes,
  }
}

/** Whether the kappa/lambda ratio of a light-chain sample is abnormal; a day without both chains says nothing, so it does not count. */
export function ratioAbnormalOn(course: Course): (sample: Measurement) => Holds {
  const pairs = new Map(lightChainPairs(course).map((pair) => [pair.on, pair]))
  const intervals = ratioIntervals(course.thresholds.ratioInterval)
  return ({ on }) => {
    const pair = pairs.get(on)
    if (pair === undefined) return 'no'
    const [usual, ...others] = intervals.map((interval) => ratioAbnormal(pair, interval))
    // Kidney function is asked only where the intervals disagree: it takes longer than all the rest.
    return usual !== undefined && others.every((other) => other === usual) ? usual : ratioAbnormal(pair, ratioIntervalFor(course, on))
  }
}

/** The caution of a ratio held against the interval for kidney disease. */
export function renalInterval(course: Course): (sample: Measurement) => readonly Caution[] {
  return ({ on }) => when(ratioIntervalFor(course, on).renal, 'renal-interval')
}
