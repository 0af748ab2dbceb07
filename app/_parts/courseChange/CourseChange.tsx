import type { OpenedPatient } from '../../../lib/usecases/index.ts'
import { CareForms } from './CareForms.tsx'
import { ChangeList } from './ChangeList.tsx'
import type { CourseActs } from './forms.ts'
import { LineForms } from './LineForms.tsx'
import { PhaseForms } from './PhaseForms.tsx'
import './courseChange.css'

interface Props {
  readonly patient: Pick<OpenedPatient, 'patientId' | 'asOf' | 'courseRecord' | 'clinicians'>
  /** Null for whoever only reads. */
  readonly acts: CourseActs | null
}

/** What physicians changed of the course, for everybody who opens the page; and for a physician the forms to change it. */
export function CourseChange({ patient: { patientId, asOf, courseRecord: record, clinicians }, acts }: Props) {
  const about = acts === null ? null : { patientId, today: asOf, act: acts.change, record }
  return (
    <section className="course-change" aria-labelledby="course-change">
      <h2 id="course-change">{acts === null ? 'Changes of the course' : 'Change the course'}</h2>
      {about !== null && (
        <div className="course-forms no-print">
          <div className="disclosures">
            <PhaseForms {...about} />
          </div>
          <div className="disclosures">
            <LineForms {...about} />
          </div>
          <div className="disclosures">
            <CareForms {...about} clinicians={clinicians} />
          </div>
        </div>
      )}
      <ChangeList changes={record.changes} patientId={patientId} takeBack={acts?.takeBack ?? null} />
    </section>
  )
}
