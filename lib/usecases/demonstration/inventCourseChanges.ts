import type { Window } from '../../rules/index.ts'
import { daysBetween } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { changeCourse } from '../courseChanges/changeCourse.ts'
import type { WishedChange } from '../courseChanges/wish.ts'
import type { PatientView } from '../patientViews.ts'
import { actOnSome, as } from './actOnSome.ts'

/** A response that has held so long on one line is followed more seldom here, in days. (ours) */
const LONG_ON_LINE = 365

interface Occasion {
  /** Where whoever gives the occasion stands on the list. */
  readonly window: Window
  readonly reason: string
  /** What a physician would change of this patient; null where there is no occasion. */
  readonly change: (view: PatientView) => WishedChange | null
}

const RESPONDS: readonly (string | null)[] = ['sCR', 'CR', 'VGPR', 'PR']

const hasLowCount = ({ findings }: PatientView): boolean => findings.some(({ rule }) => rule === 'danger-platelets' || rule === 'danger-neutrophils')

/** The line the patient is on; null where none goes on. */
function openLine({ courseRecord: { lines } }: PatientView): PatientView['courseRecord']['lines'][number] | null {
  const last = lines.at(-1)
  return last === undefined || last.end !== null ? null : last
}

// Of each one patient, so that a newcomer meets both and the list stays as the cohort makes it.
const OCCASIONS: readonly Occasion[] = [
  {
    window: 'same-day',
    reason: "Stopped today because the counts are too low. The day clinic's file does not have the end yet.",
    change: (view) => {
      const line = hasLowCount(view) ? openLine(view) : null
      return line === null ? null : { kind: 'line-ended', line: line.number, ended: view.asOf }
    },
  },
  {
    window: 'on-schedule',
    reason: 'The response has held for more than a year. The dose was lowered today, and blood is taken every three months from now on.',
    change: (view) => {
      const line = openLine(view)
      const isQuiet = view.findings.length === 0 && view.courseRecord.care === 'on-treatment' && RESPONDS.includes(view.response.category)
      if (line === null || !isQuiet || daysBetween(line.start, view.asOf) <= LONG_ON_LINE) return null
      return { kind: 'care-changed', care: 'maintenance', began: view.asOf }
    },
  },
]

/**
 * Changes of the course by the demonstration's physician, each with its reason: the end of a line, and care that became seldomer. Nobody of `others` is
 * chosen; answers them and whom the changes are about.
 */
export function inventCourseChanges(call: Call, others: ReadonlySet<string>): Promise<Outcome<ReadonlySet<string>>> {
  const physician = as(call, 'physician')
  const acts = OCCASIONS.map(({ window, reason, change }) => ({
    ...{ role: 'physician' as const, count: 1, window },
    act: (view: PatientView) => {
      const wished = change(view)
      return wished === null ? null : changeCourse(physician, { patientId: view.patientId, change: wished, reason })
    },
  }))
  return actOnSome(call, acts, others)
}
