import type { CourseChangeView } from '../../../lib/usecases/index.ts'
import type { CourseActs } from './forms.ts'
import { CourseForm } from './TwoStepForm.tsx'

function Said({ change: { by, on, reason } }: { readonly change: Pick<CourseChangeView, 'by' | 'on' | 'reason'> }) {
  return (
    <>
      by <bdi>{by}</bdi> on {on}: <q className="typed">{reason}</q>
    </>
  )
}

/** What physicians changed, latest first, with what came in beside it, and the way to take the last word back. */
export function ChangeList({
  changes,
  patientId,
  takeBack,
}: {
  changes: readonly CourseChangeView[]
  patientId: string
  takeBack: CourseActs['takeBack'] | null
}) {
  if (changes.length === 0) return <p>The course is as it came in: nobody changed it.</p>
  return (
    <ul className="course-changes">
      {changes.map((change) => (
        <li key={change.id} className={change.takenBack === null ? 'on-record' : 'on-record soft'}>
          <p>
            {change.takenBack === null ? <b>{change.says}</b> : <s>{change.says}</s>}, <Said change={change} />
          </p>
          {change.intakeSaid.map(({ says, since }) => (
            <p key={`${says} ${since}`} className={since ? 'came-since' : undefined}>
              {since
                ? `Came in since, and does not count: ${says}. Take the change back if it should.`
                : `Intake said ${says}; kept, and does not count.`}
            </p>
          ))}
          {change.takenBack !== null && (
            <p>
              Taken back <Said change={change.takenBack} />
            </p>
          )}
          {takeBack !== null && change.isLast && (
            <CourseForm
              act={takeBack}
              says="Take this back"
              to={change.says}
              button="Take it back"
              about={{ patientId, changeId: String(change.id) }}
              done="Taken back."
            />
          )}
        </li>
      ))}
    </ul>
  )
}
