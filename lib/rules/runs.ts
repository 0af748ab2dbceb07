import type { Day } from '../time/index.ts'
import type { Finding } from './finding.ts'
import type { Judgement } from './judgement.ts'
import type { RuleId } from './ruleId.ts'
import { windowFor } from './window.ts'

/** Which rule found it; organ damage ranks first within a window. */
export interface About {
  readonly rule: RuleId
  readonly organDamage: boolean
}

/** A series whose samples one rule judges one by one. */
export interface Judged {
  readonly about: About
  readonly samples: readonly { readonly on: Day }[]
  readonly judge: (at: number) => Judgement | null
  /** The immunoglobulin it is, where one stands in for the M-protein. */
  readonly immunoglobulin?: string
}

/**
 * The unbroken runs of samples that show something, each told by its last sample. The run that reaches the last sample is current;
 * an earlier one ended on the day of the sample that no longer showed it.
 */
export function findingsOfRuns(about: About, samples: readonly { readonly on: Day }[], judge: (at: number) => Judgement | null): Finding[] {
  const findings: Finding[] = []
  let since: Day | null = null
  let last: Judgement | null = null
  for (let at = 0; at <= samples.length; at += 1) {
    const day = samples[at]?.on ?? null
    const judged = day === null ? null : judge(at)
    if (judged !== null) since ??= day
    else if (last !== null && since !== null) {
      findings.push(findingOf(about, last, since, day))
      since = null
    }
    last = judged
  }
  return findings
}

/** `findingsOfRuns` of what a rule judges. */
export function findingsOfJudged(judged: readonly Judged[]): Finding[] {
  return judged.flatMap(({ about, samples, judge }) => findingsOfRuns(about, samples, judge))
}

/** One finding told by one judgement. */
export function findingOf(about: About, { certainty, state, shown }: Judgement, since: Day, endedOn: Day | null): Finding {
  const { window, ...told } = shown()
  return { rule: about.rule, state, certainty, window: windowFor(certainty, window), since, endedOn, organDamage: about.organDamage, ...told }
}
