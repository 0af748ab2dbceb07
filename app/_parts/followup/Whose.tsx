import Link from 'next/link'
import type { PatientShown } from '../../../lib/usecases/index.ts'

/** The patient behind a row: their page for whoever may open it, the pseudonym for everybody else, and of a closed record the number alone. */
export function Whose({ patientId, pseudonym, name, address }: PatientShown) {
  if (pseudonym !== null) {
    return (
      <Link className="pseudonym" href={`/cohort/${pseudonym}`} prefetch={false}>
        {pseudonym}
      </Link>
    )
  }
  if (address === null) {
    return (
      <>
        <bdi>{patientId}</bdi>
        <div className="small soft">record closed</div>
      </>
    )
  }
  return (
    <>
      <Link href={`/patients/${address}`} prefetch={false}>
        <bdi>{name ?? patientId}</bdi>
      </Link>
      {name !== null && (
        <div className="small soft">
          <bdi>{patientId}</bdi>
        </div>
      )}
    </>
  )
}
