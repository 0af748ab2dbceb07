import type { Decision, DecisionOf } from '../../lib/results/index.ts'
import { findingKey } from '../../lib/review/index.ts'
import type { Finding } from '../../lib/rules/index.ts'
import { shownOn, valuesNow } from '../../lib/standing/index.ts'
import { day } from '../../lib/time/index.ts'

function made(id: number, on: string) {
  return { id, on: day(on), at: `${on}T10:00:00.000Z`, by: 'a physician', text: 'Typed by a person.' }
}

/** A review of a finding as it stands. */
export function review(id: number, on: string, finding: Finding, bringBackOn: string): DecisionOf<'review'> {
  return { ...made(id, on), kind: 'review', rule: finding.rule, key: findingKey(finding), bringBackOn: day(bringBackOn) }
}

/** Another cause recorded for a finding as it stands. */
export function attribution(id: number, on: string, finding: Finding): DecisionOf<'attribution'> {
  return {
    ...made(id, on),
    kind: 'attribution',
    rule: finding.rule,
    key: findingKey(finding),
    shownOn: shownOn(finding),
    values: valuesNow(finding),
  }
}

export function withdrawal(id: number, on: string, attributionId: number): Decision {
  return { ...made(id, on), kind: 'attribution-withdrawn', attributionId }
}

export function exclusion(id: number, on: string, resultId: number): Decision {
  return { ...made(id, on), kind: 'exclusion', resultId }
}

export function restoration(id: number, on: string, resultId: number): Decision {
  return { ...made(id, on), kind: 'restoration', resultId }
}
