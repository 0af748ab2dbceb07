import type { Chance } from './chance.ts'
import type { PrecursorRisk } from './disease/precursorDisease.ts'
import type { Scenario } from './scenarios/scenario.ts'
import { scenariosFor } from './scenarios/table.ts'

/** What one place of the cohort is for: a scenario, or a quiet course of a phase. */
export type Part =
  | { readonly scenario: Scenario }
  | { readonly scenario: null; readonly phase: 'mgus' | 'smouldering'; readonly risk: PrecursorRisk }
  | { readonly scenario: null; readonly phase: 'active' }

/** Shares of the whole cohort, scenarios included. */
const SHARES = { mgus: 0.45, smouldering: 0.2 } as const
/** Shares of the quiet precursors without a risk factor, or with at most one. */
const LOW_RISK = { mgus: 0.4, smouldering: 0.7 } as const

function quietPrecursors(phase: 'mgus' | 'smouldering', patients: number, taken: readonly Scenario[]): Part[] {
  const directed = taken.filter((scenario) => scenario.base.phase === phase).length
  const count = Math.max(0, Math.round(SHARES[phase] * patients) - directed)
  const low = Math.round(count * LOW_RISK[phase])
  return Array.from({ length: count }, (_, index) => ({ scenario: null, phase, risk: index < low ? 'low' : 'other' }))
}

/** Gives every place of the cohort its part, in a drawn order. */
export function castCohort(patients: number, chance: Chance): Part[] {
  const directed = scenariosFor(patients)
  const parts: Part[] = directed.map((scenario) => ({ scenario }))
  parts.push(...quietPrecursors('mgus', patients, directed), ...quietPrecursors('smouldering', patients, directed))
  while (parts.length < patients) parts.push({ scenario: null, phase: 'active' })
  const cast = parts.slice(0, patients)
  for (let at = cast.length - 1; at > 0; at -= 1) {
    const other = chance.whole(0, at)
    const [a, b] = [cast[at], cast[other]]
    if (a !== undefined && b !== undefined) [cast[at], cast[other]] = [b, a]
  }
  return cast
}
