import type { Chance } from '../chance.ts'
import type { Measured, Truth } from './truth.ts'

/**
 * Coefficients of variation from sample to sample in a stable patient, biology and laboratory together.
 * Serum M-protein, urine M-protein, involved free light chain: Katzmann 2011, Clin Chem 57:1687. All others: (ours).
 */
const TOTAL_CV: Readonly<Partial<Record<Measured, number>>> = {
  'serum-m-protein': 0.081,
  'urine-m-protein': 0.358,
  igg: 0.07,
  iga: 0.07,
  igm: 0.08,
  haemoglobin: 0.03,
  platelets: 0.1,
  neutrophils: 0.18,
  'white-cells': 0.08,
  calcium: 0.018,
  albumin: 0.035,
  'total-protein': 0.025,
  creatinine: 0.055,
  'circulating-plasma-cells': 0.15,
  'b2-microglobulin': 0.08,
  ldh: 0.08,
  'marrow-plasma-cells': 0.1,
}

const FREE_LIGHT_CV = 0.284
// Kappa and lambda of one sample share most of their variation (kidney, posture, inflammation); this part is each chain's own (ours).
const FREE_LIGHT_OWN_CV = 0.11

function spreadOf(cv: number): number {
  return Math.sqrt(Math.log(1 + cv * cv))
}

const OWN_SPREAD = spreadOf(FREE_LIGHT_OWN_CV)
const SHARED_SPREAD = Math.sqrt(spreadOf(FREE_LIGHT_CV) ** 2 - OWN_SPREAD ** 2)
const SPREADS = new Map(Object.entries(TOTAL_CV).map(([name, cv]) => [name, spreadOf(cv)]))

/** What one sample shows of the truth: log-normal variation around it. */
export function sampled(truth: Truth, chance: Chance): Truth {
  const shared = SHARED_SPREAD * chance.normal()
  const shown: Truth = {}
  for (const [name, value] of Object.entries(truth) as [Measured, number][]) {
    const freeLight = name === 'kappa-flc' || name === 'lambda-flc'
    const error = freeLight ? shared + OWN_SPREAD * chance.normal() : (SPREADS.get(name) ?? 0) * chance.normal()
    shown[name] = value * Math.exp(error)
  }
  return shown
}
