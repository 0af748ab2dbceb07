import type { LookView, OpenedPatient } from '../../../lib/usecases/index.ts'
import { CompareDays, StandsSentence, WhatWouldChange } from '../look/index.ts'
import { type PatientActs, READS_ONLY } from './acts.ts'
import { CourseSections, PatientColumns } from './CourseSections.tsx'
import { CurrentFindings } from './CurrentFindings.tsx'
import { Header } from './Header.tsx'
import { Results } from './Results.tsx'
import '../look/look.css'
import './patient.css'

interface Props {
  readonly patient: Omit<OpenedPatient, 'pseudonym' | 'emergency' | 'clinicians' | 'look'> & {
    readonly pseudonym?: string | null
    readonly look?: LookView
  }
  readonly acts?: PatientActs
}

/** One patient: where it stands, why, the evidence, the charts, what is due, and what was. */
export function PatientPage({ patient, acts = READS_ONLY }: Props) {
  const { look } = patient
  return (
    <div className="patient">
      <Header patient={patient}>{look !== undefined && <StandsSentence look={look} />}</Header>
      <PatientColumns
        patient={patient}
        first={
          <section aria-labelledby="findings">
            <h2 id="findings">Findings</h2>
            <CurrentFindings patient={patient} acts={acts} />
          </section>
        }
      >
        {look !== undefined && <WhatWouldChange changes={look.changes} />}
        <CourseSections patient={patient} look={look ?? null} />
      </PatientColumns>
      {look !== undefined && <CompareDays look={look} />}
      <Results patient={patient} acts={acts} />
    </div>
  )
}
