import { type Course, isActive, type MarkerName } from '../../course/index.ts'
import type { Day } from '../../time/index.ts'
import { gap } from '../gap.ts'
import type { FollowUpRule } from '../rule.ts'

const ANY_OF: readonly MarkerName[] = ['serum-m-protein', 'urine-m-protein', 'dflc']
const EACH_OF = { 'serum-m-protein': 'serum M-protein', dflc: 'free light chains' } as const

/** Samples of a marker since the line began after which its missing baseline is worth a word (ours). */
const SAMPLES_WITHOUT = 2

/** Markers that are followed in this line without a baseline, in words; null where the line has no baseline at all. */
function without({ markers }: Course, start: Day): readonly string[] | null {
  if (ANY_OF.every((name) => markers[name].baseline === null)) return null
  return (Object.keys(EACH_OF) as (keyof typeof EACH_OF)[])
    .filter((name) => markers[name].baseline === null && markers[name].samples.filter(({ on }) => on >= start).length >= SAMPLES_WITHOUT)
    .map((name) => EACH_OF[name])
}

export const noBaseline: FollowUpRule = {
  id: 'no-baseline',
  asks: 'Has an active treatment line no baseline sample, at most 60 days before its start or 7 days after?',
  source: '60 days before and 7 days after (ours)',
  check: (course) => {
    const { phase, line } = course
    if (phase === null || !isActive(phase.phase) || line === null || line.end !== null) return []
    const markers = without(course, line.start)
    if (markers?.length === 0) return []
    const { baselineBeforeDays, baselineAfterDays } = course.thresholds
    const facts = {
      line: String(line.number),
      start: line.start,
      before: String(baselineBeforeDays),
      after: String(baselineAfterDays),
      ...(markers === null ? {} : { markers: markers.join(' and ') }),
    }
    return [gap({ rule: 'no-baseline', window: 'within-30-days', since: line.start, facts })]
  },
}
