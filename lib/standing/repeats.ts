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

/** The tests that current unconfirmed findings ask to be repeated, each with the day of the sample that raised it. */
export function repeatsFor(findings: readonly Finding[]): Repeat[] {
  return findings.flatMap(({ rule, state, endedOn, facts, since }) => {
    const group = RAISED_BY[rule]
    if (group === undefined || state !== 'unconfirmed' || endedOn !== null) return []
    return [{ group, sampledOn: (facts.on ?? since) as Day }]
  })
}
