import type { Patient } from '../results/index.ts'
import { ageAt, type Day, daysBetween } from '../time/index.ts'
import { anyHolds, type Decimal, decimal, type Holds, type Interval } from '../units/index.ts'
import type { Course, RatioInterval, Sample } from './course.ts'
import { egfr } from './kidney.ts'
import type { Thresholds } from './thresholds.ts'

/** Katzmann, Clin Chem 2002;48:1437. */
export const USUAL_RATIO: RatioInterval = { low: '0.26', high: '1.65', renal: false }
/** For eGFR below 60: Hutchison, CJASN 2008;3:1684. */
export const RENAL_RATIO: RatioInterval = { low: '0.37', high: '3.1', renal: true }

/** Graded by eGFR (Long, Blood Cancer J 2022;12:133; numbers from memory): each counts below its eGFR, the lowest that holds. */
const GRADED: readonly { readonly below: number; readonly interval: RatioInterval }[] = [
  { below: 30, interval: { low: '0.54', high: '3.30', renal: true } },
  { below: 45, interval: { low: '0.48', high: '3.38', renal: true } },
  { below: 60, interval: { low: '0.46', high: '2.62', renal: true } },
]
const BELOW_60: typeof GRADED = [{ below: 60, interval: RENAL_RATIO }]

type Policy = Thresholds['ratioInterval']

function gradesOf(policy: Policy): typeof GRADED {
  return policy === 'graded' ? GRADED : BELOW_60
}

/** Every interval a ratio can be held against under the policy, the usual one first. */
export function ratioIntervals(policy: Policy): readonly RatioInterval[] {
  return [USUAL_RATIO, ...gradesOf(policy).map(({ interval }) => interval)]
}

const CREATININE_COUNTS_DAYS = 90
const UMOL_PER_MG_DL = decimal('88.4')

/** Creatinine in mg/dL as printed, else converted; for a censored value its lower end, which gives the kidney the benefit of the doubt. */
export function creatinineMgDl(sample: Sample): number | null {
  if (sample.printed?.printedUnit === 'mg/dL') return Number(sample.printed.printed.low)
  return sample.value === null ? null : Number(sample.value.low.div(UMOL_PER_MG_DL))
}

/** The sample nearest to `on` among those collected on that day or at most `days` days before it. `samples` are oldest first. */
export function latestWithin<S extends { readonly on: Day }>(samples: readonly S[], on: Day, days: number): S | null {
  for (let at = samples.length - 1; at >= 0; at--) {
    const sample = samples[at] as S
    if (sample.on <= on) return daysBetween(sample.on, on) <= days ? sample : null
  }
  return null
}

/** eGFR on a day, mL/min/1.73 m2, from the creatinine nearest before it (at most 90 days); null without one. */
export function egfrOn(patient: Patient, creatinines: readonly Sample[], on: Day): number | null {
  const sample = latestWithin(creatinines, on, CREATININE_COUNTS_DAYS)
  const creatinine = sample === null ? null : creatinineMgDl(sample)
  if (sample === null || creatinine === null || creatinine <= 0) return null
  return egfr({ creatinineMgDl: creatinine, age: ageAt(patient.birthDate, sample.on).years, sex: patient.sex })
}

/** The interval a kappa/lambda ratio of that day is held against: one for reduced kidney function where the eGFR is below 60, else the usual one. */
export function ratioIntervalOn(patient: Patient, creatinines: readonly Sample[], on: Day, policy: Policy): RatioInterval {
  const rate = egfrOn(patient, creatinines, on)
  return gradesOf(policy).find(({ below }) => rate !== null && rate < below)?.interval ?? USUAL_RATIO
}

/** `ratioIntervalOn` for one sample day of a course. */
export function ratioIntervalFor(course: Pick<Course, 'patient' | 'samplesOf' | 'thresholds'>, on: Day): RatioInterval {
  return ratioIntervalOn(course.patient, course.samplesOf('creatinine'), on, course.thresholds.ratioInterval)
}

/** Whether `a` is more than `factor` times `b`, over all the values both leave possible. By multiplication, so exact. */
export function exceedsMultiple(a: Interval, b: Interval, factor: Decimal): Holds {
  if (b.high !== null && a.low.gt(b.high.times(factor))) return 'certain'
  return a.high === null || a.high.gt(b.low.times(factor)) ? 'possible' : 'no'
}

function fallsBelow(a: Interval, b: Interval, factor: Decimal): Holds {
  if (a.high?.lt(b.low.times(factor))) return 'certain'
  return b.high === null || a.low.lt(b.high.times(factor)) ? 'possible' : 'no'
}

interface Chains {
  readonly kappa: Interval
  readonly lambda: Interval
}

/** Whether kappa/lambda lies above the interval; its ends lie inside. By cross multiplication, so exact. */
export function ratioAbove({ kappa, lambda }: Chains, interval: RatioInterval): Holds {
  return exceedsMultiple(kappa, lambda, decimal(interval.high))
}

/** Whether kappa/lambda lies below the interval; its ends lie inside. By cross multiplication, so exact. */
export function ratioBelow({ kappa, lambda }: Chains, interval: RatioInterval): Holds {
  return fallsBelow(kappa, lambda, decimal(interval.low))
}

/** Whether kappa/lambda lies outside the interval, over all the values the two chains leave possible. */
export function ratioAbnormal(pair: Chains, interval: RatioInterval): Holds {
  return anyHolds(ratioAbove(pair, interval), ratioBelow(pair, interval))
}
