import { findingKey, sameSubject } from '../review/index.ts'
import type { Finding } from '../rules/index.ts'

/** True for two findings of one rule about one thing, whatever their evidence. */
export function sameMatter(a: Finding, b: Finding): boolean {
  return sameSubject(findingKey(a), findingKey(b))
}

type Span = Pick<Finding, 'since' | 'endedOn'>

/** True where two findings last at the same time on at least one day; the day one ends belongs to it no more. */
export function overlap(a: Span, b: Span): boolean {
  return a.since === b.since || ((a.endedOn === null || b.since < a.endedOn) && (b.endedOn === null || a.since < b.endedOn))
}

/** True where a finding already lasts on the day the other began. */
export function contains(finding: Span, { since }: Pick<Finding, 'since'>): boolean {
  return finding.since === since || (finding.since < since && (finding.endedOn === null || since < finding.endedOn))
}
