import type { Analyte } from '../../lib/results/index.ts'
import type { Chance } from '../chance.ts'
import type { Draw, Visit } from '../follow/visit.ts'
import { sampled } from '../kinetics/noise.ts'
import type { Measured, Truth } from '../kinetics/truth.ts'

const DRAWN: Readonly<Partial<Record<Draw, readonly Measured[]>>> = {
  core: [
    'serum-m-protein',
    'kappa-flc',
    'lambda-flc',
    'haemoglobin',
    'white-cells',
    'neutrophils',
    'platelets',
    'creatinine',
    'calcium',
    'albumin',
    'total-protein',
  ],
  immunoglobulins: ['igg', 'iga', 'igm'],
  urine: ['urine-m-protein'],
  staging: ['b2-microglobulin', 'ldh'],
}

/** What one visit shows of each analyte drawn, in the unit kept: the truth with its variation, or what the scenario directs. */
export function shownAt(visit: Visit, truth: Truth, chance: Chance): ReadonlyMap<Measured, number> {
  const varied = sampled(truth, chance)
  const shown = new Map<Measured, number>()
  for (const analyte of visit.draws.flatMap((draw) => DRAWN[draw] ?? [])) shown.set(analyte, varied[analyte] ?? 0)
  for (const [analyte, change] of Object.entries(visit.changes) as [Analyte, Visit['changes'][Analyte]][]) {
    if (typeof change === 'string' || change === undefined) continue
    const name = analyte as Measured
    shown.set(name, typeof change === 'number' ? change : change(truth[name] ?? 0))
  }
  return shown
}
