import type { ReactNode } from 'react'
import type { CohortPatientView, PatientView } from '../../../lib/usecases/index.ts'
import { WINDOW_WORDS, words } from '../words.ts'

type Shown = PatientView | CohortPatientView

const PARTS: Readonly<Record<string, string>> = {
  serum: 'serum M-protein',
  urine: 'urine M-protein',
  'light-chain': 'free light chains',
  marrow: 'marrow plasma cells',
}

export function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

function chains({ heavyChain, involvedChain }: Shown): string {
  const heavy = heavyChain === null ? 'heavy chain not recorded' : heavyChain === 'none' ? 'light chain only' : `Ig${heavyChain}`
  return `${heavy}, ${involvedChain === null ? 'involved light chain not known' : `${involvedChain} involved`}`
}

/** Where the course stands, as facts of a list. */
export function CourseFacts({ patient }: { readonly patient: Shown }) {
  const { phase, phaseSince, care, measurableBy, status, statusOn } = patient
  return (
    <>
      <Fact name="Phase">
        {words(phase)}
        {phaseSince !== null && ` since ${phaseSince}`}
        {care !== null && `, ${words(care)}`}
      </Fact>
      <Fact name="Chains">{chains(patient)}</Fact>
      <Fact name="Measurable by">{measurableBy.length === 0 ? 'nothing at baseline' : measurableBy.map((by) => PARTS[by] ?? by).join(', ')}</Fact>
      <Fact name="Clinician">{patient.clinician === null ? 'not recorded' : <bdi>{patient.clinician}</bdi>}</Fact>
      {status !== 'followed' && (
        <Fact name="Status">
          {words(status)}
          {statusOn !== null && ` on ${statusOn}`}
        </Fact>
      )}
    </>
  )
}

/** How soon a person should look, the one sentence why, and what Lowmark does not do. */
export function Stands({ patient }: { readonly patient: Shown }) {
  return (
    <>
      <p className={`stands stands-${patient.window}`}>
        <strong>{WINDOW_WORDS[patient.window]}.</strong> {patient.why}
      </p>
      <p className="small soft">
        As of {patient.asOf}. Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.
      </p>
    </>
  )
}
