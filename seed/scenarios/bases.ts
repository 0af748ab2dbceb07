import type { Disease } from '../disease/disease.ts'
import type { ActiveBase, PrecursorBase } from './scenario.ts'

/** An IgG kappa myeloma that is measurable in serum. */
const INTACT: Partial<Disease> = { isotype: { heavy: 'G', light: 'kappa' }, serum: 46, urine: 0, freeLight: 120, anaemia: 20, paresis: 0.4 }
/** Kappa light chains only. */
const LIGHT: Partial<Disease> = { isotype: { heavy: 'none', light: 'kappa' }, serum: 0, urine: 0, freeLight: 1200, anaemia: 20, paresis: 0.4 }
/** Makes nothing a laboratory can measure. */
const SILENT: Partial<Disease> = {
  isotype: { heavy: 'none', light: 'kappa' },
  serum: 0,
  urine: 0,
  freeLight: 0,
  anaemia: 15,
  paresis: 0.2,
  marrow: 44,
}

export const MGUS: PrecursorBase = { phase: 'mgus', risk: 'other' }
export const SMOULDERING: PrecursorBase = { phase: 'smouldering', risk: 'low' }
export const SMOULDERING_CLOSE: PrecursorBase = { phase: 'smouldering', risk: 'other' }

export const ON_TREATMENT: ActiveBase = { phase: 'active', care: 'on-treatment', disease: INTACT, residue: 0.1 }
export const MAINTAINED: ActiveBase = { phase: 'active', care: 'maintenance', disease: INTACT, residue: 0.13 }
export const COMPLETE: ActiveBase = { phase: 'active', care: 'maintenance', disease: { ...INTACT, freeLight: 60 }, residue: 0.001 }
export const COMPLETE_ANTIBODY: ActiveBase = {
  ...COMPLETE,
  disease: { ...COMPLETE.disease, isotype: { heavy: 'A', light: 'lambda' } },
  regimen: 'daratumumab',
}
/** An IgA in the beta region: electrophoresis hardly measures it. */
export const BETA: ActiveBase = {
  phase: 'active',
  care: 'maintenance',
  disease: { ...INTACT, isotype: { heavy: 'A', light: 'kappa' }, serum: 9, freeLight: 60 },
  residue: 0.13,
}
export const URINE: ActiveBase = { phase: 'active', care: 'maintenance', disease: { ...INTACT, urine: 800 }, residue: 0.08 }
export const LIGHT_MAINTAINED: ActiveBase = { phase: 'active', care: 'maintenance', disease: LIGHT, residue: 0.03 }
export const LIGHT_ON_TREATMENT: ActiveBase = { phase: 'active', care: 'on-treatment', disease: LIGHT, residue: 0.03 }
export const SILENT_ON_TREATMENT: ActiveBase = { phase: 'active', care: 'on-treatment', disease: SILENT, residue: 0.2, diagnosedAgo: 370 }
export const LEUKAEMIA: ActiveBase = {
  phase: 'plasma-cell-leukaemia',
  care: 'on-treatment',
  disease: SILENT,
  residue: 0.2,
  diagnosedAgo: 130,
  bare: true,
}
