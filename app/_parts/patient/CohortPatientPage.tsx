import type { CohortFindingView, CohortPatientView } from '../../../lib/usecases/index.ts'
import { CompareDays, StandsSentence, WhatWouldChange } from '../look/index.ts'
import { counted } from '../words.ts'
import { READS_ONLY } from './acts.ts'
import { CourseFacts, Fact, Stands } from './CourseFacts.tsx'
import { CourseSections, PatientColumns } from './CourseSections.tsx'
import { Findings } from './Findings.tsx'
import { Results } from './Results.tsx'
import '../look/look.css'
import './patient.css'
import './work.css'

function Head({ patient }: { readonly patient: CohortPatientView }) {
  const { pseudonym, ageBand, sex, heldRows } = patient
  return (
    <header className="patient-head">
      <h1 className="pseudonym">{pseudonym}</h1>
      <StandsSentence look={patient.look} />
      <dl className="facts">
        <Fact name="Age in years, sex">
          {ageBand}, {sex}
        </Fact>
        <CourseFacts patient={patient} />
        {heldRows > 0 && (
          <Fact name="Held rows">
            {heldRows} waiting; nobody has decided on {heldRows === 1 ? 'it' : 'them'}
          </Fact>
        )}
      </dl>
      <Stands patient={patient} />
      <p className="small soft">
        Under a pseudonym: who it is, what people typed, the names of files and values that tell the age (eGFR, clearance) are not shown.
      </p>
    </header>
  )
}

const waits = ({ answered }: CohortFindingView) => answered === null

function Current({ findings, look }: Pick<CohortPatientView, 'findings' | 'look'>) {
  if (findings.length === 0) return <p>Nothing is found in the latest samples.</p>
  const sumOf = new Map(findings.map((finding, at) => [finding, look.sumOf[at] ?? null]))
  const answered = findings.filter((finding) => !waits(finding))
  return (
    <>
      <Findings findings={findings.filter(waits)} none="Every finding is answered; none waits for anybody." sumOf={sumOf} />
      {answered.length > 0 && <h2 className="answered-head">{counted(answered.length, 'answered finding')}</h2>}
      <Findings findings={answered} none="" sumOf={sumOf} />
    </>
  )
}

/** One patient under a pseudonym: as the patient page, to be read only. */
export function CohortPatientPage({ patient }: { readonly patient: CohortPatientView }) {
  return (
    <div className="patient">
      <Head patient={patient} />
      <PatientColumns
        patient={patient}
        first={
          <section aria-labelledby="findings">
            <h2 id="findings">Findings</h2>
            <Current findings={patient.findings} look={patient.look} />
          </section>
        }
      >
        <WhatWouldChange changes={patient.look.changes} />
        <CourseSections patient={patient} look={patient.look} />
      </PatientColumns>
      <CompareDays look={patient.look} />
      <Results patient={patient} acts={READS_ONLY} />
    </div>
  )
}
