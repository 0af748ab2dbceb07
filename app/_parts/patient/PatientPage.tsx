import type { ComponentProps } from 'react'
import { type PatientActs, READS_ONLY } from './acts.ts'
import { CourseSections, PatientColumns } from './CourseSections.tsx'
import { CurrentFindings } from './CurrentFindings.tsx'
import { Header } from './Header.tsx'
import { Results } from './Results.tsx'
import './patient.css'

/** One patient: where it stands, why, the evidence, the charts, what is due, and what was. */
export function PatientPage({ patient, acts = READS_ONLY }: ComponentProps<typeof Header> & { readonly acts?: PatientActs }) {
  return (
    <div className="patient">
      <Header patient={patient} />
      <PatientColumns charts={patient.charts}>
        <section aria-labelledby="findings">
          <h2 id="findings">Findings</h2>
          <CurrentFindings patient={patient} acts={acts} />
        </section>
        <CourseSections patient={patient} />
      </PatientColumns>
      <Results patient={patient} acts={acts} />
    </div>
  )
}
