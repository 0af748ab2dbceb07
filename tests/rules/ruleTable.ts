import { describe, expect, test } from 'vitest'
import { traceCourse } from '../../lib/course/index.ts'
import { RULES } from '../../lib/rules/courseRules.ts'
import type { Finding } from '../../lib/rules/finding.ts'
import type { RuleId } from '../../lib/rules/ruleId.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** A year after most samples, so that only a test about age is about age. */
export const TODAY = '2025-06-30'

export interface RuleCase {
  readonly why: string
  readonly given: HistoryWords
  readonly today?: string
  /** What the current finding must show; only for `fires`. */
  readonly shows?: Partial<Pick<Finding, 'state' | 'certainty' | 'window' | 'cautions'>> & { readonly since?: string }
}

export interface RuleCases {
  readonly fires: readonly RuleCase[]
  readonly quiet: readonly RuleCase[]
}

/** Every finding of one rule, past ones included. */
export function foundBy(rule: RuleId, given: HistoryWords, today = TODAY): readonly Finding[] {
  const course = traceCourse(history(given), day(today))
  return RULES.filter(({ id }) => id === rule).flatMap(({ check }) => check(course))
}

/** The current findings of one rule. */
export function currentBy(rule: RuleId, given: HistoryWords, today = TODAY): readonly Finding[] {
  return foundBy(rule, given, today).filter(({ endedOn }) => endedOn === null)
}

/** The test of a rule is its table: when it fires, when it is quiet, each with why. A case given twice is refused. */
export function testRule(rule: RuleId, { fires, quiet }: RuleCases): void {
  describe(rule, () => {
    test('no case stands in the table twice', () => {
      const all = [...fires, ...quiet].map(({ given, today }) => JSON.stringify([given, today]))
      expect(new Set(all).size).toBe(all.length)
    })
    test.each(fires)('fires: $why', ({ given, today, shows = {} }) => {
      const found = currentBy(rule, given, today)
      expect(found.length).toBeGreaterThan(0)
      expect(found[0]).toMatchObject({ rule, ...shows })
      expect(Number.isFinite(found[0]?.excess)).toBe(true)
    })
    test.each(quiet)('quiet: $why', ({ given, today }) => {
      expect(currentBy(rule, given, today)).toEqual([])
    })
  })
}
