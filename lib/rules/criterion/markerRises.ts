import { type Course, lightChainPairs, type Measurement, RENAL_RATIO, ratioAbnormal, ratioIntervalFor, USUAL_RATIO } from '../../course/index.ts'
import { TOTAL_CV } from '../../statistics/index.ts'
import type { Holds } from '../../units/index.ts'
import { when } from '../cautions.ts'
import type { Caution } from '../finding.ts'
import { REFERENCE_CHANGE } from '../noise.ts'
import { RISES } from './rise.ts'
import type { Rising } from './rising.ts'

/** Progression by serum M-protein. */
export function serumRise(course: Course): Rising {
  return {
    of: course.markers['serum-m-protein'],
    criterion: RISES.serum,
    noise: REFERENCE_CHANGE.serum,
    cv: TOTAL_CV['serum-m-protein'],
    freeLightChains: false,
    hastens: true,
  }
}

/** Progression by urine M-protein. */
export function urineRise(course: Course): Rising {
  return {
    of: course.markers['urine-m-protein'],
    criterion: RISES.urine,
    noise: REFERENCE_CHANGE.urine,
    cv: TOTAL_CV['urine-m-protein'],
    freeLightChains: false,
    hastens: true,
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
    hastens: true,
  }
}

/** Whether the kappa/lambda ratio of a light-chain sample is abnormal; a day without both chains says nothing, so it does not count. */
export function ratioAbnormalOn(course: Course): (sample: Measurement) => Holds {
  const pairs = new Map(lightChainPairs(course).map((pair) => [pair.on, pair]))
  return ({ on }) => {
    const pair = pairs.get(on)
    if (pair === undefined) return 'no'
    const usual = ratioAbnormal(pair, USUAL_RATIO)
    // Kidney function is asked only where the two intervals disagree: it takes longer than all the rest.
    return usual === ratioAbnormal(pair, RENAL_RATIO) ? usual : ratioAbnormal(pair, ratioIntervalFor(course, on))
  }
}

/** The caution of a ratio held against the interval for kidney disease. */
export function renalInterval(course: Course): (sample: Measurement) => readonly Caution[] {
  return ({ on }) => when(ratioIntervalFor(course, on).renal, 'renal-interval')
}
