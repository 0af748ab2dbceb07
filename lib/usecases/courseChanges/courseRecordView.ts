import { courseInForce, type Overruled } from '../../course/index.ts'
import { changesInForce, type History, matterOf, type SpokenChange } from '../../results/index.ts'
import { courseChangeSays, toldSays } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { CourseChangeView, CourseRecordView } from './views.ts'

function intakeSaid(change: SpokenChange, overruled: readonly Overruled[], { patient }: History): CourseChangeView['intakeSaid'] {
  if (change.kind === 'clinician-changed') {
    const { clinician: now } = patient
    return now === null || now === change.instead || now === change.clinician ? [] : [{ says: `clinician ${now}`, since: true }]
  }
  return overruled.filter(({ by }) => by.id === change.id).map(({ event, since }) => ({ says: toldSays(event), since }))
}

/** What physicians changed of a course, with what came in beside it. Pure. */
export function courseRecordView({ course, known }: Pick<Assessment, 'course' | 'known'>): CourseRecordView {
  const { courseChanges } = known
  const { phases, overruled } = courseInForce(known)
  const inForce = changesInForce(courseChanges)
  const spoken = courseChanges.filter((change) => change.kind !== 'taken-back').toSorted((a, b) => b.id - a.id)
  return {
    phases: phases.map(({ phase, on, change }) => ({ phase, on, by: change?.by ?? null })),
    lines: course.lines,
    care: course.care,
    clinician: course.patient.clinician,
    changes: spoken.map((change) => {
      const back = courseChanges.find((one) => one.kind === 'taken-back' && one.changeId === change.id)
      const last = inForce.findLast((one) => matterOf(one) === matterOf(change))
      return {
        id: change.id,
        by: change.by,
        on: change.on,
        reason: change.text,
        says: courseChangeSays(change),
        intakeSaid: intakeSaid(change, overruled, known),
        takenBack: back === undefined ? null : { by: back.by, on: back.on, reason: back.text },
        isLast: last?.id === change.id,
      }
    }),
  }
}
