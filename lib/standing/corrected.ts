import type { FindingChange, History } from '../results/index.ts'
import { findingKey, givenAnswers, handoverOf, sameSubject } from '../review/index.ts'
import type { Caution, Finding } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { contains, overlap } from './sameRun.ts'

const parsed = (text: string | null): Finding | null => (text === null ? null : (JSON.parse(text) as Finding))

/** A change with both findings read. */
interface Told {
  readonly change: FindingChange
  readonly before: Finding | null
  readonly since: Finding | null
}

/** True where a later correction brought back what this one took. */
function cameBack({ change, before }: Told, all: readonly Told[]): boolean {
  return all.some(
    (other) =>
      other.change.id > change.id &&
      other.change.what === 'created' &&
      before !== null &&
      other.since !== null &&
      sameSubject(other.change.key, change.key) &&
      overlap(other.since, before),
  )
}

/** The changes that made a finding what it is, first change first. */
function changesOf(finding: Finding, all: readonly Told[]): readonly FindingChange[] {
  const key = findingKey(finding)
  return all.filter(({ change, since }) => since !== null && sameSubject(change.key, key) && contains(finding, since)).map(({ change }) => change)
}

const CAUTION: Partial<Record<FindingChange['what'], Caution>> = { removed: 'removed-by-correction', created: 'created-by-correction' }

/** A past finding says that a correction ended it or made it; a current one keeps its cautions, so that the order of arrival decides nothing. */
function marked(finding: Finding, own: readonly FindingChange[]): Finding {
  const caution = own.map(({ what }) => CAUTION[what]).findLast((one) => one !== undefined)
  if (finding.endedOn === null || caution === undefined) return finding
  return { ...finding, cautions: [...finding.cautions, caution] }
}

/** A finding no sample shows any more, as it was told: it ended on the day the correction came, where it had not before. */
function takenBack({ change, before }: Told): readonly Finding[] {
  if (change.what !== 'removed' || change.since !== null || before === null) return []
  return [{ ...before, endedOn: before.endedOn ?? change.on, cautions: [...before.cautions, 'removed-by-correction'] }]
}

/**
 * What a correction took back comes to its reviewer until somebody reviews that: the review answers it until its bring-back day, and then it is past.
 * Null where a later correction brought the finding back.
 */
function comingBack(finding: Finding, { decisions }: History, all: readonly Told[], today: Day): Finding | null {
  const told = all.find(({ change }) => String(change.id) === finding.facts.change)
  if (told === undefined || cameBack(told, all)) return null
  const key = findingKey(finding)
  const review = givenAnswers(decisions).find((given) => given.kind === 'review' && given.key === key)
  const isOver = review?.kind === 'review' && today >= review.bringBackOn && handoverOf(finding, decisions) === null
  return isOver ? { ...finding, endedOn: review.on } : finding
}

/**
 * Findings with what corrections did to them: one that was taken back stands among the past ones as it was told, and past ones say that a correction
 * made or ended them. `changes` names the correction behind each finding that has one.
 */
export function corrected(
  found: readonly Finding[],
  known: History,
  today: Day,
): { readonly told: readonly Finding[]; readonly changes: ReadonlyMap<Finding, FindingChange> } {
  if (known.changes.length === 0) return { told: found, changes: new Map() }
  const all = known.changes.map((change): Told => ({ change, before: parsed(change.before), since: parsed(change.since) }))
  const changes = new Map<Finding, FindingChange>()
  const told: Finding[] = []
  const put = (finding: Finding, change: FindingChange | null): void => {
    told.push(finding)
    if (change !== null) changes.set(finding, change)
  }
  for (const finding of found) {
    if (finding.rule === 'reviewed-then-corrected') {
      const coming = comingBack(finding, known, all, today)
      if (coming !== null) put(coming, known.changes.find(({ id }) => String(id) === finding.facts.change) ?? null)
      continue
    }
    const own = changesOf(finding, all)
    put(marked(finding, own), own.at(-1) ?? null)
  }
  for (const one of all) for (const finding of takenBack(one)) put(finding, one.change)
  return { told, changes }
}
