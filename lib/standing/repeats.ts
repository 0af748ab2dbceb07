import type { Repeat, TestGroup } from '../plan/index.ts'
import type { Finding, RuleId } from '../rules/index.ts'
import type { Day } from '../time/index.ts'

/** The test group that raises each finding of active disease; marrow, circulating plasma cells and immunofixation are in no group of the plan. */
const RAISED_BY: Partial<Record<RuleId, TestGroup>> = {
  'pd-serum': 'serum-m-protein',
  'pd-urine': 'urine-24h',
  'pd-light-chain': 'free-light-chains',
  'light-chain-escape': 'free-light-chains',
  'relapse-calcium': 'chemistry',
  'relapse-creatinine': 'chemistry',
  'relapse-haemoglobin': 'blood-count',
}

// A rise of a quantitative immunoglobulin is repeated by itself; IgD is in no group of the plan.
export function raisedBy(rule: RuleId, immunoglobulin: string | undefined): TestGroup | undefined {
  if (rule !== 'pd-serum' || immunoglobulin === undefined) return RAISED_BY[rule]
  return immunoglobulin === 'IgD' ? undefined : 'immunoglobulins'
}

/** Whether a finding of this rule, unconfirmed, asks for a test of the plan to be repeated. */
export function isRepeated(rule: RuleId): boolean {
  return RAISED_BY[rule] !== undefined
}

/** The tests that current unconfirmed findings ask to be repeated, each with the day of the sample that raised it. */
export function repeatsFor(findings: readonly Finding[]): Repeat[] {
  return findings.flatMap((finding) => {
    const { state, endedOn, facts, since } = finding
    const group = raisedBy(finding.rule, facts.immunoglobulin)
    if (group === undefined || state !== 'unconfirmed' || endedOn !== null) return []
    return [{ group, sampledOn: (facts.on ?? since) as Day }]
  })
}
