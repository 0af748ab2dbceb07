import type { Analyte } from '../../results/index.ts'
import { GAP_RULES, type RuleId, type Window } from '../../rules/index.ts'
import type { WouldChange } from './change.ts'
import { type Holding, holding } from './holds.ts'
import { ofFinding } from './ofFinding.ts'
import { ofGap } from './ofGap.ts'
import { ofMarker } from './ofMarker.ts'
import { type Question, WORK } from './question.ts'
import { leadingAnalytes } from './rulesOf.ts'

export interface Changes {
  readonly window: Window
  readonly changes: readonly WouldChange[]
  /** Open findings of which no next value or test was found that changes them. */
  readonly unchanged: readonly RuleId[]
  /** Open findings and markers for which the work of a page did not last: nothing is claimed of them. */
  readonly notAsked: { readonly rules: readonly RuleId[]; readonly analytes: readonly Analyte[] }
  readonly holds: Holding
}

const GAPS: ReadonlySet<RuleId> = new Set(GAP_RULES.map(({ id }) => id))

/**
 * What would change the window: until when it holds, then for each open finding, then for each leading marker of which nothing is said yet, as far as
 * the work for one patient lasts. Pure.
 */
export function whatWouldChange(asked: Omit<Question, 'work' | 'next'>): Changes {
  const question: Question = { ...asked, work: { left: WORK }, next: new Map() }
  const { course, open, window } = question.assessment
  const holds = holding(question)
  const changes: WouldChange[] = []
  const unchanged = new Set<RuleId>()
  const notAsked = { rules: new Set<RuleId>(), analytes: new Set<Analyte>() }
  for (const finding of open) {
    if (question.work.left <= 0) {
      notAsked.rules.add(finding.rule)
      continue
    }
    const found = GAPS.has(finding.rule) ? ofGap(question, finding) : ofFinding(question, finding)
    changes.push(...found)
    if (found.length === 0) unchanged.add(finding.rule)
  }
  for (const analyte of leadingAnalytes(course)) {
    const found = question.work.left <= 0 ? null : ofMarker(question, analyte)
    if (found === null) notAsked.analytes.add(analyte)
    else changes.push(...found)
  }
  return { window, changes, unchanged: [...unchanged], notAsked: { rules: [...notAsked.rules], analytes: [...notAsked.analytes] }, holds }
}
