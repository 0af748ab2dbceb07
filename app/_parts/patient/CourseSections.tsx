import type { ReactNode } from 'react'
import type { CohortPatientView, LookView, PatientView } from '../../../lib/usecases/index.ts'
import { PatientCharts } from '../chart/PatientCharts.tsx'
import { Sums } from '../look/index.ts'
import { counted } from '../words.ts'
import { DerivedValues } from './DerivedValues.tsx'
import { DueTests } from './DueTests.tsx'
import { Findings } from './Findings.tsx'
import { Immunofixations } from './Immunofixations.tsx'
import { ResponseAndRisk } from './ResponseAndRisk.tsx'

interface Props {
  readonly patient: PatientView | CohortPatientView
  /** The parts and the arithmetic behind what is told; null where only what is told is shown. */
  readonly look: LookView | null
}

/** What is due, response and risk, and what was: the sections below the current findings. */
export function CourseSections({ patient, look }: Props) {
  const { history, due, asOf, response, risk } = patient
  const tookBack = history.some(({ correction }) => correction?.what === 'removed')
  return (
    <>
      <section aria-labelledby="due">
        <h2 id="due">Due tests</h2>
        <DueTests due={due} asOf={asOf} />
        {look !== null && <Sums sums={look.sums} of={['late']} />}
      </section>
      <section aria-labelledby="models">
        <h2 id="models">Response and risk</h2>
        <ResponseAndRisk response={response} risk={risk} look={look} />
      </section>
      <section aria-labelledby="immunofixation">
        <h2 id="immunofixation">Immunofixation</h2>
        <Immunofixations fixations={patient.immunofixations} />
      </section>
      <section aria-labelledby="derived">
        <h2 id="derived">Computed values</h2>
        <DerivedValues derived={patient.derived} />
        {look !== null && <Sums sums={look.sums} of={['egfr', 'clearance', 'adjusted-calcium', 'kappa-lambda', 'dflc', 'involved-ratio']} />}
      </section>
      <section aria-labelledby="history">
        <h2 id="history">Past findings</h2>
        {history.length === 0 ? (
          <p>No finding has ended.</p>
        ) : (
          <details>
            <summary>
              {counted(history.length, 'finding')} the latest samples no longer show{tookBack && ' or a correction took back'}
            </summary>
            <Findings findings={history} none="" />
          </details>
        )}
      </section>
    </>
  )
}

interface Columns {
  readonly patient: Pick<PatientView, 'charts' | 'course'>
  /** Why the patient stands where it does: before the course wherever both do not fit side by side. */
  readonly first: ReactNode
  readonly children: ReactNode
}

/** What is said on one side, the charts on the other; on a narrow screen the charts come after the first, before all that is long. */
export function PatientColumns({ patient, first, children }: Columns) {
  return (
    <div className="patient-columns">
      <div>{first}</div>
      <section className="patient-course" aria-labelledby="charts">
        <h2 id="charts">Course</h2>
        <PatientCharts charts={patient.charts} course={patient.course} />
      </section>
      <div>{children}</div>
    </div>
  )
}
