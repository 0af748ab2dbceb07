import type { Analyte } from '../../results/index.ts'
import { type RuleId, WINDOWS } from '../../rules/index.ts'
import type { WouldChange } from './change.ts'
import { subjectOf } from './nextSample.ts'
import type { Question } from './question.ts'
import { rulesOf } from './rulesOf.ts'
import { asEdge, type Edged, edgeWhere } from './valueEdge.ts'

/** An edge at which a rule first shows something. */
type FirstMet = Edged & { readonly what: 'first-met'; readonly rule: RuleId }

/** Up to so many times the nearest edge a farther one with a sooner look is told (ours): what lies beyond is no next value. */
const NEAR_TIMES = 2

/**
 * The next value of a leading marker at which something is first said of it, and one not far beyond it at which the look is sooner. Null where the work did
 * not last for all its rules: the nearest value is then not known.
 */
export function ofMarker(question: Question, analyte: Analyte): readonly WouldChange[] | null {
  const { course, findings } = question.assessment
  const subject = subjectOf(course, analyte)
  if (subject === null) return []
  const away = subject.low ? 1 : -1
  const shown = new Set(findings.map(({ rule }) => rule))
  const found: { readonly rule: RuleId; readonly at: number }[] = []
  for (const rule of rulesOf(course, analyte).filter((one) => !shown.has(one))) {
    if (question.work.left <= 0) return null
    const at = edgeWhere(question, subject, rule, ({ certainty }) => certainty === 'certain')
    if (at !== null) found.push({ rule, at })
  }
  const nearestFirst = found.toSorted((a, b) => (subject.low ? b.at - a.at : a.at - b.at))
  const told: FirstMet[] = []
  for (const { rule, at } of nearestFirst) {
    const nearest = told[0]?.steps ?? at
    if (told.length > 1 || at > nearest * NEAR_TIMES) break
    const soonest = Math.min(WINDOWS.length, ...told.map(({ gives }) => WINDOWS.indexOf(gives.window)))
    const edged = asEdge(question, subject, rule, [at, at + away], {
      holds: ({ state, certain }) => state !== null && certain,
      isWorth: ({ window }) => WINDOWS.indexOf(window) < soonest,
    })
    if (edged !== null) told.push({ what: 'first-met', rule, ...edged })
  }
  return told
}
