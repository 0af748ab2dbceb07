import Link from 'next/link'

/** A long page: where its parts are, and the one way to what can be handed to the patient. */
export function PatientWays({ address, changes }: { readonly address: string; readonly changes: boolean }) {
  return (
    <nav className="patient-ways no-print" aria-label="This patient">
      <Link href={`/patients/${address}/sheet`} prefetch={false}>
        Sheet for the patient
      </Link>
      <a href="#charts">Course</a>
      <a href="#would-change">What would change</a>
      <a href="#due">Due tests</a>
      <a href="#models">Response and risk</a>
      <a href="#compare">Two days compared</a>
      <a href="#results">Results</a>
      <a href="#course-change">{changes ? 'Change the course' : 'Changes of the course'}</a>
      <a href="#take-away">Print or send</a>
    </nav>
  )
}
