import type { Finding } from '../../rules/index.ts'
import { RULES } from '../../rules/index.ts'
import type { WouldChange } from './change.ts'
import { subjectOf } from './nextSample.ts'
import type { Question } from './question.ts'
import { analyteOf } from './rulesOf.ts'
import { asEdge, edgeWhere } from './valueEdge.ts'

const isCourseRule = ({ rule }: Finding): boolean => RULES.some(({ id }) => id === rule)

/** Rules whose unconfirmed finding a second sample confirms; what drifts has no such state of its own. */
function awaitsSecond({ state, rule }: Finding): boolean {
  return state === 'unconfirmed' && /^(pd-|mde-|relapse-|light-chain-escape)/.test(rule)
}

/** What the next value of its own analyte does to an open finding: confirms it, or no longer shows it. */
export function ofFinding(question: Question, finding: Finding): readonly WouldChange[] {
  const { rule } = finding
  const analyte = isCourseRule(finding) ? analyteOf(question.assessment.course, finding) : null
  const subject = analyte === null ? null : subjectOf(question.assessment.course, analyte)
  if (subject === null) return []
  const away = subject.low ? 1 : -1
  const changes: WouldChange[] = []
  if (awaitsSecond(finding)) {
    const at = edgeWhere(question, subject, rule, (found) => found.state === 'confirmed' && found.certainty === 'certain')
    const edged =
      at === null ? null : asEdge(question, subject, rule, [at, at + away], { holds: ({ state, certain }) => state === 'confirmed' && certain })
    if (edged !== null) changes.push({ what: 'confirms', rule, ...edged })
  }
  const shows = edgeWhere(question, subject, rule, () => true)
  const ends = shows === null ? null : asEdge(question, subject, rule, [shows + away, shows], { holds: ({ state }) => state === null })
  if (ends !== null) changes.push({ what: 'no-longer-shown', rule, ...ends })
  return changes
}
