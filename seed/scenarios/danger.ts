import { LIGHT_MAINTAINED, LIGHT_ON_TREATMENT, MAINTAINED, ON_TREATMENT } from './bases.ts'
import type { Scenario } from './scenario.ts'

const times = (factor: number) => (truth: number) => truth * factor

/** Courses whose last sample cannot wait (clinical.md 3.3). */
export const DANGER_SCENARIOS: readonly Scenario[] = [
  { name: 'danger-calcium', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 32 }, { daysAgo: 4, changes: { calcium: 3.09, albumin: 38 } }] },
  {
    name: 'danger-calcium, ionised normal',
    per400: 1,
    base: MAINTAINED,
    visits: [{ daysAgo: 9, changes: { calcium: 3.06, albumin: 40, 'ionised-calcium': 1.19 } }],
  },
  { name: 'danger-kidney', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 31 }, { daysAgo: 3, changes: { creatinine: times(1.8) } }] },
  {
    name: 'danger-light-chain-kidney',
    per400: 1,
    base: LIGHT_MAINTAINED,
    visits: [{ daysAgo: 8, changes: { 'kappa-flc': 620, 'lambda-flc': 7 } }],
  },
  {
    name: 'danger-light-chain-kidney with danger-kidney',
    per400: 1,
    base: LIGHT_ON_TREATMENT,
    visits: [{ daysAgo: 33 }, { daysAgo: 5, changes: { 'kappa-flc': 980, 'lambda-flc': 6, creatinine: times(1.9) } }],
  },
  {
    name: 'danger-plasma-cells',
    per400: 1,
    base: ON_TREATMENT,
    visits: [{ daysAgo: 30 }, { daysAgo: 5, changes: { 'circulating-plasma-cells': 8, 'white-cells': 8.8 } }],
  },
  {
    name: 'danger-neutrophils',
    per400: 1,
    base: ON_TREATMENT,
    visits: [{ daysAgo: 34 }, { daysAgo: 6, changes: { neutrophils: 0.45, 'white-cells': 1.5 } }],
  },
  { name: 'danger-platelets', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 30 }, { daysAgo: 3, changes: { platelets: 17 } }] },
  { name: 'danger-haemoglobin', per400: 1, base: ON_TREATMENT, visits: [{ daysAgo: 29 }, { daysAgo: 2, changes: { haemoglobin: 74 } }] },
  { name: 'danger-neutrophils, stale', per400: 1, base: MAINTAINED, visits: [{ daysAgo: 41, changes: { neutrophils: 0.41, 'white-cells': 1.6 } }] },
]
