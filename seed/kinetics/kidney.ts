import type { Sex } from '../../lib/results/index.ts'

/** A kidney: eGFR at a reference age and what it loses a year. */
export interface Kidney {
  readonly egfr: number
  readonly atAge: number
  /** mL/min/1.73 m2 lost a year. */
  readonly lossAYear: number
}

export function egfrAt(kidney: Kidney, age: number): number {
  return Math.max(18, kidney.egfr - kidney.lossAYear * (age - kidney.atAge))
}

/**
 * Creatinine (umol/L) that gives this eGFR: CKD-EPI 2021 (Inker, NEJM 2021;385:1737) solved for creatinine.
 * 88.4 umol/L to the mg/dL.
 */
export function creatinineFor(egfr: number, sex: Sex, age: number): number {
  const kappa = sex === 'female' ? 0.7 : 0.9
  const alpha = sex === 'female' ? -0.241 : -0.302
  const atKappa = 142 * 0.9938 ** age * (sex === 'female' ? 1.012 : 1)
  const ratio = (egfr / atKappa) ** (1 / (egfr < atKappa ? -1.2 : alpha))
  return kappa * ratio * 88.4
}

/** Cockcroft-Gault clearance, mL/min, from creatinine in umol/L. */
export function clearanceFor(creatinine: number, sex: Sex, age: number, weightKg: number): number {
  return (((140 - age) * weightKg) / (72 * (creatinine / 88.4))) * (sex === 'female' ? 0.85 : 1)
}
