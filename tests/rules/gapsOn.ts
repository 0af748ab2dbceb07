import { DEFAULT_PLAN, testsDue } from '../../lib/plan/index.ts'
import { courseFindings, type Finding, GAP_RULES, type RuleId } from '../../lib/rules/index.ts'
import type { HistoryWords } from '../builders/history.ts'
import { courseOn } from '../plan/due.ts'

/** Current findings of one gap rule on a day, by the default plan without any known risk and without repeats. */
export function gapsOn(rule: RuleId, words: HistoryWords, today: string): readonly Finding[] {
  const course = courseOn(words, today)
  const found = courseFindings(course)
  const due = testsDue(course, DEFAULT_PLAN, [], [])
  return GAP_RULES.filter(({ id }) => id === rule)
    .flatMap(({ check }) => check(course, due, found))
    .filter(({ endedOn }) => endedOn === null)
}
