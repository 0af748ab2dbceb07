import type { Finding } from '../rules/index.ts'
import { overlap, sameMatter } from './sameRun.ts'

/** A finding as it was told and as it is; null where it is told no more, or was not told. */
export interface FindingPair {
  readonly before: Finding | null
  readonly since: Finding | null
}

/** Gaps that tell what is missing: where a report fills one, nothing was taken back, and what the last report said is no matter. */
export const MISSING: readonly string[] = ['overdue', 'due-in-grace', 'held-results', 'no-course', 'no-baseline']

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
export function findingPairs(before: readonly Finding[], since: readonly Finding[]): readonly FindingPair[] {
  const [left, right] = [new Set(before), new Set(since)]
  const paired: FindingPair[] = []
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
