import type { FollowUpPlan } from '../plan/index.ts'
import { type Correction, type Decision, exclusionsOf, type FindingChange, type History, isWithdrawn, type LabResult } from '../results/index.ts'
import { findingKey, pastAnswersTo, sameSubject } from '../review/index.ts'
import { type Finding, says } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { assess } from './assess.ts'
import type { Assessment } from './assessment.ts'
import { overlap, sameMatter } from './sameRun.ts'

/** What corrections did to one finding, before it is kept. */
export type NewChange = Omit<FindingChange, 'id' | 'at' | 'on'>

interface Pair {
  readonly before: Finding | null
  readonly since: Finding | null
}

/** Gaps that tell what is missing: where a report fills one, nothing was taken back, and what the last report said is no matter. */
const MISSING: readonly string[] = ['overdue', 'due-in-grace', 'held-results', 'no-course', 'no-baseline']

/** What of a finding a reader would see changed. Numbers in its words that rest on every sample, such as a probability, are left out. */
function fingerprint({ rule, state, certainty, window, since, endedOn, evidence }: Finding): string {
  const values = (MISSING.includes(rule) ? [] : evidence).map(({ role, analyte, value, comparator, collectedOn }) => [
    role,
    analyte,
    value,
    comparator,
    collectedOn,
  ])
  return JSON.stringify([rule, state, certainty, window, since, endedOn, values])
}

const isAlike = (a: Finding, b: Finding): boolean => sameMatter(a, b) && fingerprint(a) === fingerprint(b)
const beganTogether = (a: Finding, b: Finding): boolean => sameMatter(a, b) && a.since === b.since
const isSameRun = (a: Finding, b: Finding): boolean => sameMatter(a, b) && overlap(a, b)

/** Each finding of before with the one it is since, the likest first; findings that are told as they were are left out. */
function pairs(before: readonly Finding[], since: readonly Finding[]): readonly Pair[] {
  const [left, right] = [new Set(before), new Set(since)]
  const paired: Pair[] = []
  for (const fits of [isAlike, beganTogether, isSameRun]) {
    for (const was of [...left]) {
      const is = [...right].find((one) => fits(was, one))
      if (is === undefined) continue
      left.delete(was)
      right.delete(is)
      if (fits !== isAlike) paired.push({ before: was, since: is })
    }
  }
  return [...paired, ...[...left].map((was) => ({ before: was, since: null })), ...[...right].map((is) => ({ before: null, since: is }))]
}

function whatOf({ before, since }: Pair): FindingChange['what'] {
  const [was, is] = [before?.endedOn === null, since?.endedOn === null]
  if (since === null || (was && !is)) return 'removed'
  return before === null || (is && !was) ? 'created' : 'changed'
}

const isFilled = (pair: Pair): boolean => pair.before !== null && MISSING.includes(pair.before.rule) && whatOf(pair) === 'removed'

/** The corrections of values the finding rests on; of all where none is among its evidence. */
function behind({ before, since }: Pair, corrections: readonly Correction[]): readonly Correction[] {
  const ids = new Set([...(before?.evidence ?? []), ...(since?.evidence ?? [])].flatMap(({ resultIds }) => resultIds))
  const own = corrections.filter(({ replaced, by }) => ids.has(replaced.id) || ids.has(by.id))
  return own.length > 0 ? own : corrections
}

/** What people had decided about a finding while it was told; about one that comes back, while it was told before an earlier correction took it. */
function decidedOnFinding({ before, since }: Pair, earlier: readonly FindingChange[], { known, attributions }: Assessment): readonly Decision[] {
  if (before === null) {
    const key = since === null ? '' : findingKey(since)
    return earlier.findLast((change) => change.what === 'removed' && sameSubject(change.key, key))?.decisions ?? []
  }
  const attribution = attributions.get(before)
  return [...pastAnswersTo(before, known.decisions, []), ...(attribution === undefined ? [] : [attribution.decision])]
}

/** The decisions a change brings back to those who made them: about the finding, and about the versions that were replaced. */
function decidedOn(pair: Pair, corrections: readonly Correction[], earlier: readonly FindingChange[], assessed: Assessment): readonly Decision[] {
  const exclusions = exclusionsOf(assessed.known.decisions)
  const excluded = corrections.flatMap(({ replaced }) => exclusions.get(replaced.id) ?? [])
  const all = [...decidedOnFinding(pair, earlier, assessed), ...excluded].map((decision) => [decision.id, decision] as const)
  return [...new Map(all).values()].toSorted((a, b) => a.id - b.id)
}

const textOf = (finding: Finding | null): string | null => (finding === null ? null : JSON.stringify({ ...finding, saidThen: says(finding) }))

function changeOf(pair: Pair, all: readonly Correction[], earlier: readonly FindingChange[], assessed: Assessment): NewChange {
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
  return pairs(all(before), all(since))
    .filter((pair) => !isFilled(pair))
    .map((pair) => changeOf(pair, corrections, history.changes, before))
}
