import type { ComparedView } from '../../lib/usecases/index.ts'
import { Neighbours } from './Neighbours.tsx'

/** What a row says of whose it is beside what is known of a patient. */
export function Compared({ compared: { row, patient, differs, near } }: { readonly compared: ComparedView }) {
  const others = patient.identifiers.map(({ source, identifier }) => `${identifier} (${source})`).join(', ')
  const lines = [
    ['Patient number', row.identifier, others === '' ? patient.patientId : `${patient.patientId}; also ${others}`],
    ['Name', row.name, patient.name ?? ''],
    ['Birth date', row.birthDate, patient.birthDate],
    ['Sex', row.sex, patient.sex],
  ] as const
  return (
    <>
      <table className="table held-compared">
        <thead>
          <tr>
            <td />
            <th scope="col">The row</th>
            <th scope="col">The patient</th>
          </tr>
        </thead>
        <tbody>
          {lines.map(([name, told, known]) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{told === '' ? <span className="soft">not given</span> : <span className="received">{told}</span>}</td>
              <td>{known === '' ? <span className="soft">not recorded</span> : <bdi>{known}</bdi>}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {near !== null && <Neighbours near={near} inCard={true} />}
      {differs.length > 0 && <p className="notice notice-alert">Look again: {differs.join('; ')}.</p>}
    </>
  )
}
