import Link from 'next/link'
import type { ReactNode } from 'react'
import type { PatientView } from '../../../lib/usecases/index.ts'
import { WINDOW_WORDS, words } from '../words.ts'

const PARTS: Readonly<Record<string, string>> = {
  serum: 'serum M-protein',
  urine: 'urine M-protein',
  'light-chain': 'free light chains',
  marrow: 'marrow plasma cells',
}

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>{children}</dd>
    </div>
  )
}

/** So many held rows are named one by one; the others are found in the queue. */
const NAMED = 5

function HeldLinks({ held }: { readonly held: readonly number[] }) {
  return (
    <>
      {held.slice(0, NAMED).map((heldId, at) => (
        <span key={heldId}>
          {at > 0 && ', '}
          <Link href={`/held/${heldId}`} prefetch={false}>
            row {heldId}
          </Link>
        </span>
      ))}
      {held.length > NAMED && (
        <>
          {' '}
          and {held.length - NAMED} more in{' '}
          <Link href="/held" prefetch={false}>
            the queue
          </Link>
        </>
      )}
    </>
  )
}

function chains({ heavyChain, involvedChain }: PatientView): string {
  const heavy = heavyChain === null ? 'heavy chain not recorded' : heavyChain === 'none' ? 'light chain only' : `Ig${heavyChain}`
  return `${heavy}, ${involvedChain === null ? 'involved light chain not known' : `${involvedChain} involved`}`
}

/** Who the patient is, where the course stands, how soon a person should look and the one sentence why. */
export function Header({ patient }: { readonly patient: PatientView }) {
  const { age, name, patientId, phase, phaseSince, care, measurableBy, status, statusOn, held } = patient
  return (
    <header className="patient-head">
      <h1>
        <bdi>{name ?? patientId}</bdi>
      </h1>
      <dl className="facts">
        {name !== null && (
          <Fact name="Identifier">
            <bdi>{patientId}</bdi>
          </Fact>
        )}
        <Fact name="Age, sex">
          {age.exact ? `${age.years}` : `${age.years} or ${age.years - 1}`} years, {patient.sex}; born {patient.birthDate}
        </Fact>
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
        {held.length > 0 && (
          <Fact name="Held rows">
            {held.length} waiting; nobody has decided on {held.length === 1 ? 'it' : 'them'}: <HeldLinks held={held} />
          </Fact>
        )}
      </dl>
      <p className={`stands stands-${patient.window}`}>
        <strong>{WINDOW_WORDS[patient.window]}.</strong> {patient.why}
      </p>
      <p className="small soft">
        As of {patient.asOf}. Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.
      </p>
    </header>
  )
}
