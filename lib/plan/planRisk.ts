import type { RiskAssessment } from '../models/index.ts'
import type { PlanRisk } from './plan.ts'

/**
 * Risk as the plan's rows ask for it. Low in MGUS only when all three factors of the model are known and absent (Rajkumar 2005); in smouldering
 * myeloma 2 or more only when that many factors of 20/2/20 are known to be there. What is missing never makes the plan milder or stricter by a guess.
 */
export function planRisk(phase: 'mgus' | 'smouldering', risk: readonly RiskAssessment[]): PlanRisk {
  if (phase === 'mgus') {
    const mgus = risk.find((assessed) => assessed.model === 'mgus')
    return mgus?.factors === 0 && mgus.missing.length === 0 ? 'low' : 'not-low'
  }
  const factors = risk.find((assessed) => assessed.model === '20-2-20')?.factors ?? 0
  return factors >= 2 ? '2-factors-or-more' : 'fewer-than-2-factors'
}
