import { findingKey } from '../../review/index.ts'
import { type Finding, RULE_IDS } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { refuse } from './decide.ts'

/** Which finding a person decides on: the rule, and the evidence they saw. */
export interface FindingWish {
  readonly rule: string
  readonly key: string
}

/** The current finding a person saw. Refuses where it is none, or rests on other evidence by now. */
export function currentFinding({ findings }: Assessment, { rule, key }: FindingWish): Finding {
  if (!(RULE_IDS as readonly string[]).includes(rule)) refuse('invalid', `No rule is called "${rule}".`)
  const ofRule = findings.filter((finding) => finding.rule === rule)
  if (ofRule.length === 0) refuse('invalid', 'This finding is no longer current: look again.')
  return ofRule.find((finding) => findingKey(finding) === key) ?? refuse('invalid', 'New evidence arrived meanwhile: look again.')
}
