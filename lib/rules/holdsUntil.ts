import type { Course } from '../course/index.ts'
import { addDays, type Day } from '../time/index.ts'
import type { Finding } from './finding.ts'
import { INJURY_COUNTS_DAYS } from './kidneyInjury.ts'
import { STALE_AFTER_DAYS } from './limit.ts'

/**
 * The last day on which course findings stay as they are when nothing arrives: danger grows stale, kidney injury and a step up in risk lapse. Null when
 * no day changes them.
 */
export function courseFindingsHoldUntil(findings: readonly Finding[], { today, thresholds }: Pick<Course, 'today' | 'thresholds'>): Day | null {
  const days = findings.flatMap((finding) => {
    if (finding.endedOn === null && finding.rule === 'risk-step') return [addDays(finding.since, thresholds.riskStepDays)]
    if (finding.endedOn !== null || !finding.rule.startsWith('danger-')) return []
    const on = finding.facts.on as Day
    return [addDays(on, finding.rule === 'danger-kidney' ? INJURY_COUNTS_DAYS : STALE_AFTER_DAYS)]
  })
  const ahead = days.filter((on) => on >= today).sort()
  return ahead[0] ?? null
}
