import type { Decision, DecisionOf } from './decision.ts'
import type { History } from './history.ts'
import type { LabResult } from './labResult.ts'

/** The exclusion in force of each result version that is excluded: of several decisions on one version the last one holds. */
export function exclusionsOf(decisions: readonly Decision[]): ReadonlyMap<number, DecisionOf<'exclusion'>> {
  const exclusions = new Map<number, DecisionOf<'exclusion'>>()
  for (const decision of decisions.toSorted((a, b) => a.id - b.id)) {
    if (decision.kind === 'exclusion') exclusions.set(decision.resultId, decision)
    if (decision.kind === 'restoration') exclusions.delete(decision.resultId)
  }
  return exclusions
}

/** The results that count: an excluded version counts for nothing, a later correction of it counts again. */
export function countingResults({ results, decisions }: Pick<History, 'results' | 'decisions'>): readonly LabResult[] {
  const excluded = exclusionsOf(decisions)
  return excluded.size === 0 ? results : results.filter((result) => !excluded.has(result.id))
}
