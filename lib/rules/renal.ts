import { type Course, cockcroftGault, egfr, type Measurement } from '../course/index.ts'
import { ageAt } from '../time/index.ts'
import { above, anyHolds, type Decimal, decimal, type Holds, type Interval } from '../units/index.ts'
import { compared, type PublishedLimit, published } from './printedLimit.ts'

/** Creatinine above which the kidney counts as damaged, and the rise from the start of a line that does (IMWG 2014, 2016). */
export const CREATININE: PublishedLimit = published('umol/L', { 'umol/L': '177', 'mg/dL': '2' })
/** Clearance or eGFR, mL/min, below which it does (IMWG 2014). */
export const FILTRATION = '40'

const UMOL_PER_MG_DL = decimal('88.4')
const COCKCROFT_GAULT = decimal('72')
const FEMALE = decimal('0.85')

/** Whether a value is low for every, some or no creatinine of the interval: filtration falls as creatinine rises. */
function lowOver(creatinine: Interval, isLow: (at: Decimal) => boolean): Holds {
  if (isLow(creatinine.low)) return 'certain'
  return creatinine.high === null || isLow(creatinine.high) ? 'possible' : 'no'
}

function inMgDl({ printed, value }: Measurement): Interval {
  if (printed?.printedUnit === 'mg/dL') return printed.printed
  return { low: value.low.div(UMOL_PER_MG_DL), high: value.high?.div(UMOL_PER_MG_DL) ?? null }
}

/** The end of a creatinine that is known, mg/dL: of "<" the upper one, of ">" the lower one. Null where it is 0. */
function knownMgDl(sample: Measurement): number | null {
  const { low, high } = inMgDl(sample)
  const known = Number(high ?? low)
  return known > 0 ? known : null
}

/** eGFR on the day of a creatinine, mL/min/1.73 m2, from the end of it that is known; null for a creatinine of 0. */
export function egfrRateOn({ birthDate, sex }: Course['patient'], sample: Measurement): number | null {
  const creatinineMgDl = knownMgDl(sample)
  return creatinineMgDl === null ? null : egfr({ creatinineMgDl, age: ageAt(birthDate, sample.on).years, sex })
}

/** Clearance on the day of a creatinine, mL/min, from the end of it that is known; null without a weight or for a creatinine of 0. */
export function clearanceOn({ birthDate, sex, weightKg }: Course['patient'], sample: Measurement): number | null {
  const creatinineMgDl = knownMgDl(sample)
  if (creatinineMgDl === null || weightKg === null) return null
  return cockcroftGault({ creatinineMgDl, age: ageAt(birthDate, sample.on).years, sex, weightKg: Number(weightKg) })
}

/** What filtration is judged by: clearance where a weight is known, else eGFR. */
export type FiltrationBy = 'clearance' | 'eGFR'

/**
 * Filtration on the day of a creatinine, in mL/min: Cockcroft-Gault where a weight is known (compared by cross multiplication, so exact), else
 * CKD-EPI 2021. `below` judges it against the limit; `text` is its value rounded to one decimal, from the lower end of a censored creatinine.
 */
export function filtrationOn(
  course: Pick<Course, 'patient'>,
  sample: Measurement,
): { readonly by: FiltrationBy; readonly below: () => Holds; readonly rate: number } | null {
  const { birthDate, sex, weightKg } = course.patient
  const creatinine = inMgDl(sample)
  if (creatinine.high?.lte(0)) return null
  const age = ageAt(birthDate, sample.on).years
  const atLow = Number(creatinine.low)
  if (weightKg === null) {
    const rate = (at: number) => egfr({ creatinineMgDl: at, age, sex })
    return { by: 'eGFR', rate: rate(atLow), below: () => lowOver(creatinine, (at) => at.gt(0) && rate(Number(at)) < Number(FILTRATION)) }
  }
  const numerator = weightKg.times(140 - age).times(sex === 'female' ? FEMALE : 1)
  const perCreatinine = COCKCROFT_GAULT.times(FILTRATION)
  // On the kept unit umol/L the division by 88.4 is moved to the other side, so that nothing is rounded.
  const exact = sample.printed?.printedUnit === 'mg/dL' ? sample.printed.printed : sample.value
  const left = sample.printed?.printedUnit === 'mg/dL' ? numerator : numerator.times(UMOL_PER_MG_DL)
  return {
    by: 'clearance',
    rate: Number(numerator) / (Number(COCKCROFT_GAULT) * atLow),
    below: () => lowOver(exact, (at) => left.lt(perCreatinine.times(at))),
  }
}

/** Creatinine above the limit, in the unit both are printed in. */
export function creatinineHigh(sample: Measurement): Holds {
  const { value, limit } = compared(sample, CREATININE)
  return above(value, limit)
}

/** Creatinine above the limit, or filtration below its own. */
export function kidneyDamaged(course: Pick<Course, 'patient'>, sample: Measurement): Holds {
  const high = creatinineHigh(sample)
  return high === 'certain' ? high : anyHolds(high, filtrationOn(course, sample)?.below() ?? 'no')
}
