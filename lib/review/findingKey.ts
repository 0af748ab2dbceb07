import { type Evidence, type Finding, GAP_RULES, type RuleId } from '../rules/index.ts'

const GAPS: ReadonlySet<RuleId> = new Set(GAP_RULES.map((rule) => rule.id))

/** Which of several current findings of one rule: the test group, the finding that waits, the specimen; empty where a rule has but one. */
function subjectOf({ facts }: Finding): string {
  return facts.group ?? facts.rule ?? facts.specimen ?? ''
}

function evidenceKey({ role, analyte, value, collectedOn, resultIds }: Evidence): unknown {
  return resultIds.length === 0 ? [role, analyte, value, collectedOn] : [role, ...resultIds.toSorted((a, b) => a - b)]
}

/**
 * A finding with its evidence as one canonical text: rule, subject, state, certainty, window, and the stored results behind it; what no result shows
 * stands with its value and day, a gap with its facts. Another sample, a correction, a surer state or another window give another key.
 */
export function findingKey(finding: Finding): string {
  const { rule, state, certainty, window, evidence, facts } = finding
  const told = GAPS.has(rule) ? Object.entries(facts).toSorted(([a], [b]) => (a < b ? -1 : 1)) : []
  return JSON.stringify([rule, subjectOf(finding), state, certainty, window, evidence.map(evidenceKey), told])
}

/** True for two keys of one rule about one thing, whatever their evidence. */
export function sameSubject(a: string, b: string): boolean {
  const [one, other] = [JSON.parse(a) as unknown[], JSON.parse(b) as unknown[]]
  return one[0] === other[0] && one[1] === other[1]
}

/** What a key names whatever the evidence: its rule, and its subject where the rule has several. */
export function topicOf(key: string): string {
  const [rule, subject] = JSON.parse(key) as string[]
  return subject === '' ? `${rule}` : `${rule} ${subject}`
}
