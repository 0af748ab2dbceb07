import type { Sex } from '../results/index.ts'
import { type Decimal, decimal } from '../units/index.ts'

interface Kidney {
  readonly creatinineMgDl: number
  /** Completed years. */
  readonly age: number
  readonly sex: Sex
}

/** Estimated glomerular filtration rate, mL/min/1.73 m2, CKD-EPI 2021 creatinine equation (Inker, NEJM 2021;385:1737). Adults only. */
export function egfr({ creatinineMgDl, age, sex }: Kidney): number {
  const [k, a, factor] = sex === 'female' ? [0.7, -0.241, 1.012] : [0.9, -0.302, 1]
  const relative = creatinineMgDl / k
  return 142 * Math.min(relative, 1) ** a * Math.max(relative, 1) ** -1.2 * 0.9938 ** age * factor
}

/** Creatinine clearance, mL/min, from age, weight and creatinine (Cockcroft and Gault, Nephron 1976;16:31). */
export function cockcroftGault({ creatinineMgDl, age, sex, weightKg }: Kidney & { readonly weightKg: number }): number {
  return (((140 - age) * weightKg) / (72 * creatinineMgDl)) * (sex === 'female' ? 0.85 : 1)
}

const PER_GRAM = decimal('0.02')
const USUAL_ALBUMIN = decimal('40')

/** Calcium adjusted for albumin, mmol/L, exact: Ca + 0.02 x (40 - albumin g/L), after Payne, BMJ 1973;4:643. */
export function adjustedCalcium(calcium: Decimal, albumin: Decimal): Decimal {
  return calcium.plus(PER_GRAM.times(USUAL_ALBUMIN.minus(albumin)))
}
