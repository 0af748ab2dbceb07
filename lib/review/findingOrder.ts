import { type Finding, RULE_IDS, STATES, WINDOWS } from '../rules/index.ts'
import { compareDays } from '../time/index.ts'

/** Place of a finding as numbers, smallest first: by window, then confirmed before met before unconfirmed, then organ damage first. */
export function ranksOf({ window, state, organDamage }: Pick<Finding, 'window' | 'state' | 'organDamage'>) {
  return { windowRank: WINDOWS.indexOf(window), stateRank: STATES.indexOf(state), organRank: organDamage ? 0 : 1 }
}

/** Negative when `a` is looked at before `b` (clinical.md 3.8); of two alike, the rule that stands first in the specification. */
export function compareFindings(a: Finding, b: Finding): number {
  const [one, other] = [ranksOf(a), ranksOf(b)]
  return (
    one.windowRank - other.windowRank ||
    one.stateRank - other.stateRank ||
    one.organRank - other.organRank ||
    compareDays(a.since, b.since) ||
    b.excess - a.excess ||
    RULE_IDS.indexOf(a.rule) - RULE_IDS.indexOf(b.rule)
  )
}

/** The findings of one patient, most urgent first. Findings that are alike keep their order. */
export function sortFindings(findings: readonly Finding[]): Finding[] {
  return [...findings].sort(compareFindings)
}
