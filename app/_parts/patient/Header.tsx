import Link from 'next/link'
import type { ReactNode } from 'react'
import type { PatientView } from '../../../lib/usecases/index.ts'
import { CourseFacts, Fact, Stands } from './CourseFacts.tsx'

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

interface Props {
  /** With what quality is told in place of the name, where there is such. */
  readonly patient: PatientView & { readonly pseudonym?: string | null }
  /** Stands first, below the name. */
  readonly children?: ReactNode
}

/** Who the patient is, where the course stands, how soon a person should look and the one sentence why. */
export function Header({ patient, children }: Props) {
  const { age, name, patientId, held, pseudonym = null } = patient
  return (
    <header className="patient-head">
      <h1>
        <bdi>{name ?? patientId}</bdi>
      </h1>
      {children}
      <dl className="facts">
        {name !== null && (
          <Fact name="Patient number">
            <bdi>{patientId}</bdi>
          </Fact>
        )}
        <Fact name="Age, sex">
          {age.exact ? `${age.years}` : `${age.years} or ${age.years - 1}`} years, {patient.sex}; born {patient.birthDate}
        </Fact>
        <CourseFacts patient={patient} />
        {pseudonym !== null && (
          <Fact name="Pseudonym, as quality reads it">
            <span className="pseudonym">{pseudonym}</span>
          </Fact>
        )}
        {held.length > 0 && (
          <Fact name="Held rows">
            {held.length} waiting; nobody has decided on {held.length === 1 ? 'it' : 'them'}: <HeldLinks held={held} />
          </Fact>
        )}
      </dl>
      <Stands patient={patient} />
    </header>
  )
}
