import type { FollowUpPlan } from '../plan/index.ts'
import { type Correction, type Decision, exclusionsOf, type FindingChange, type History, isWithdrawn, type LabResult } from '../results/index.ts'
import { findingKey, pastAnswersTo, sameSubject } from '../review/index.ts'
import { type Finding, says } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { assess } from './assess.ts'
import type { Assessment } from './assessment.ts'
import { type FindingPair, findingPairs, MISSING } from './findingPairs.ts'

/** What corrections did to one finding, before it is kept. */
export type NewChange = Omit<FindingChange, 'id' | 'at' | 'on'>

function whatOf({ before, since }: FindingPair): FindingChange['what'] {
  const [was, is] = [before?.endedOn === null, since?.endedOn === null]
  if (since === null || (was && !is)) return 'removed'
  return before === null || (is && !was) ? 'created' : 'changed'
}

const isFilled = (pair: FindingPair): boolean => pair.before !== null && MISSING.includes(pair.before.rule) && whatOf(pair) === 'removed'

/** The corrections of values the finding rests on; of all where none is among its evidence. */
function behind({ before, since }: FindingPair, corrections: readonly Correction[]): readonly Correction[] {
  const ids = new Set([...(before?.evidence ?? []), ...(since?.evidence ?? [])].flatMap(({ resultIds }) => resultIds))
  const own = corrections.filter(({ replaced, by }) => ids.has(replaced.id) || ids.has(by.id))
  return own.length > 0 ? own : corrections
}

/** What people had decided about a finding while it was told; about one that comes back, while it was told before an earlier correction took it. */
function decidedOnFinding(
  { before, since }: FindingPair,
  earlier: readonly FindingChange[],
  { known, attributions }: Assessment,
): readonly Decision[] {
  if (before === null) {
    const key = since === null ? '' : findingKey(since)
    return earlier.findLast((change) => change.what === 'removed' && sameSubject(change.key, key))?.decisions ?? []
  }
  const attribution = attributions.get(before)
  return [...pastAnswersTo(before, known.decisions, []), ...(attribution === undefined ? [] : [attribution.decision])]
}

/** The decisions a change brings back to those who made them: about the finding, and about the versions that were replaced. */
function decidedOn(
  pair: FindingPair,
  corrections: readonly Correction[],
  earlier: readonly FindingChange[],
  assessed: Assessment,
): readonly Decision[] {
  const exclusions = exclusionsOf(assessed.known.decisions)
  const excluded = corrections.flatMap(({ replaced }) => exclusions.get(replaced.id) ?? [])
  const all = [...decidedOnFinding(pair, earlier, assessed), ...excluded].map((decision) => [decision.id, decision] as const)
  return [...new Map(all).values()].toSorted((a, b) => a.id - b.id)
}

const textOf = (finding: Finding | null): string | null => (finding === null ? null : JSON.stringify({ ...finding, saidThen: says(finding) }))

function changeOf(pair: FindingPair, all: readonly Correction[], earlier: readonly FindingChange[], assessed: Assessment): NewChange {
  const told = (pair.before ?? pair.since) as Finding
  const corrections = behind(pair, all)
  const decisions = decidedOn(pair, corrections, earlier, assessed)
  return {
    what: whatOf(pair),
    rule: told.rule,
    key: findingKey(told),
    before: textOf(pair.before),
    since: textOf(pair.since),
    corrections,
    decisions,
  }
}

/** The results as they counted before: each corrected one as the version that was replaced. */
function withoutCorrections(results: readonly LabResult[], corrections: readonly Correction[]): readonly LabResult[] {
  const now = new Set(corrections.map(({ by }) => by.id))
  const before = corrections.map(({ replaced }) => replaced).filter((result) => !isWithdrawn(result))
  return [...results.filter(({ id }) => !now.has(id)), ...before].toSorted((a, b) => a.collected.order - b.collected.order || a.id - b.id)
}

/**
 * What corrections did to the findings of a patient: everything said on a day with the versions that counted before, held against everything said
 * with those that count now, all else equal. `history` holds the latter. Pure.
 */
export function findingChanges(history: History, corrections: readonly Correction[], plan: FollowUpPlan, today: Day): readonly NewChange[] {
  const since = assess({ ...history, changes: [] }, plan, today)
  const before = assess({ ...history, changes: [], results: withoutCorrections(history.results, corrections) }, plan, today)
  const all = ({ findings, history: past }: Assessment): readonly Finding[] => [...findings, ...past]
  return findingPairs(all(before), all(since))
    .filter((pair) => !isFilled(pair))
    .map((pair) => changeOf(pair, corrections, history.changes, before))
}
