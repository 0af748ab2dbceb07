import type { Course, Measurement } from '../../course/index.ts'
import { addDays, daysBetween } from '../../time/index.ts'
import { anyCensored, methodChanged, when } from '../cautions.ts'
import { evidenceOf, valueText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Finding } from '../finding.ts'
import { INJURY_COUNTS_DAYS, INJURY_RATIO, kidneyInjuryAt } from '../kidneyInjury.ts'
import { dangerFindings, type Telling } from '../limit.ts'
import type { CourseRule } from '../rule.ts'
import { SOURCES } from '../sources.ts'

function tells(samples: readonly Measurement[], at: number, lookBackDays: number): Telling {
  const injury = kidneyInjuryAt(samples, at, lookBackDays)
  const current = samples[at]
  if (injury === null || current === undefined) return { window: 'same-day', excess: 1, facts: {} }
  const { lowest, lowestValue } = injury
  return {
    window: 'same-day',
    excess: ratioOf(current.value.low, (lowestValue.high ?? lowestValue.low).times(INJURY_RATIO)),
    cautions: [
      ...when(anyCensored(lowestValue) && !anyCensored(current.value), 'censored'),
      ...when(methodChanged(lowest, current), 'method-changed'),
    ],
    evidence: [evidenceOf('reference', 'creatinine', 'umol/L', lowest)],
    facts: { reference: valueText(lowest, 'umol/L'), referenceOn: lowest.on, days: String(lookBackDays) },
  }
}

// The rise is news for 14 days; after them it has ended although no later sample says so.
function endedByAge(finding: Finding, last: Measurement | undefined, course: Course): Finding {
  const lapsed = finding.endedOn === null && last !== undefined && daysBetween(last.on, course.today) > INJURY_COUNTS_DAYS
  return lapsed ? { ...finding, endedOn: addDays(last.on, INJURY_COUNTS_DAYS + 1) } : finding
}

export const dangerKidney: CourseRule = {
  id: 'danger-kidney',
  asks: 'Is creatinine at least 1.5 times the lowest of the 90 days before, in a sample at most 14 days old?',
  source: `after ${SOURCES.kdigo2012}; the 90 days before (ours)`,
  check: (course) => {
    const { creatinine } = course.markers
    const { samples } = creatinine
    const last = samples.at(-1)
    const { kidneyInjuryDays } = course.thresholds
    const found = dangerFindings(
      {
        about: { rule: 'danger-kidney', organDamage: true },
        of: creatinine,
        holds: (_, at) => kidneyInjuryAt(samples, at, kidneyInjuryDays)?.holds ?? 'no',
        tells: (_, at) => tells(samples, at, kidneyInjuryDays),
      },
      // It ends before it can grow stale: what it said on the day of its last sample stays its history.
      last?.on ?? course.today,
    )
    return found.map((finding) => endedByAge(finding, last, course))
  },
}
