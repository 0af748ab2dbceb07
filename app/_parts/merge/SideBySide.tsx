import type { ReactNode } from 'react'
import type { ComparisonView, RecordView } from '../../../lib/usecases/index.ts'
import { words } from '../words.ts'
import { PatientLink } from './PatientLink.tsx'

const ROWS: readonly (readonly [name: string, of: (record: RecordView) => ReactNode])[] = [
  ['Name', ({ name }) => (name === null ? 'not recorded' : <bdi>{name}</bdi>)],
  ['Born', ({ birthDate }) => birthDate],
  ['Sex', ({ sex }) => sex],
  ['Clinician', ({ clinician }) => (clinician === null ? 'not recorded' : <bdi>{clinician}</bdi>)],
  ['Status', ({ status, statusOn }) => `${words(status)}${statusOn === null ? '' : ` on ${statusOn}`}`],
  ['Results', ({ results }) => results],
  ['Course events', ({ events }) => events],
  ['Held rows', ({ held }) => held],
  ['First day', ({ firstOn }) => firstOn ?? 'nothing recorded'],
  ['Last day', ({ lastOn }) => lastOn ?? 'nothing recorded'],
]

/** Two records side by side: what identifies each, how much is in it, and what they do not tell alike. */
export function SideBySide({ compared: { from, into, differences } }: { readonly compared: Omit<ComparisonView, 'obstacle'> }) {
  return (
    <>
      <div className="scroll">
        <table className="table side-by-side">
          <caption>The two records</caption>
          <thead>
            <tr>
              <th scope="col">
                <span className="sr-only">What</span>
              </th>
              <th scope="col">
                <PatientLink id={into.patientId} address={into.address} />, kept
              </th>
              <th scope="col">
                <PatientLink id={from.patientId} address={from.address} />, joined to it
              </th>
            </tr>
          </thead>
          <tbody>
            {ROWS.map(([name, of]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                <td>{of(into)}</td>
                <td>{of(from)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <Differences says={differences} />
    </>
  )
}

/** What two records do not tell alike, and which of it counts. */
export function Differences({ says }: { readonly says: readonly string[] }) {
  if (says.length === 0) return <p className="soft">They contradict each other in nothing.</p>
  return (
    <>
      <p>What they do not tell alike:</p>
      <ul className="merge-differences">
        {says.map((sentence) => (
          <li key={sentence}>{sentence}</li>
        ))}
      </ul>
    </>
  )
}
