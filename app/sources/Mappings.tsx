import type { MappingView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { counted, instantText, words } from '../_parts/words.ts'
import { mappingsPart } from '../_server/pages.ts'
import { RevokeForm } from './RevokeForm.tsx'

const COLUMNS = ['Source', 'As received', 'Means', 'Decided', 'Filed with it', 'State']

function Mapping({ mapping }: { readonly mapping: MappingView }) {
  const { id, source, kind, received, ofCode, meaning, analyte, reason, madeBy, madeAt, confirmedBy, revoked, rows, patients } = mapping
  const filed = `${counted(rows, 'row')} of ${counted(patients, 'patient')}`
  return (
    <tr>
      <td data-label="Source">
        <bdi>{source}</bdi>
      </td>
      <th scope="row">
        {words(kind)} <span className="received">{received}</span>
        {ofCode !== null && (
          <>
            {' '}
            beside <span className="received">{ofCode}</span>
          </>
        )}
      </th>
      <td data-label="Means">
        <bdi>{meaning}</bdi>
        {analyte !== null && kind === 'code' && `, ${testName(analyte)}`}
      </td>
      <td data-label="Decided">
        <bdi>{madeBy}</bdi>, {instantText(madeAt)}
        {confirmedBy !== null && (
          <>
            , confirmed by <bdi>{confirmedBy}</bdi>
          </>
        )}
        : <bdi>{reason}</bdi>
      </td>
      <td data-label="Filed with it">{filed}</td>
      <td className="counts-cell">
        {revoked === null ? (
          'in force'
        ) : (
          <>
            revoked by <bdi>{revoked.by}</bdi>, {instantText(revoked.at)}: <bdi>{revoked.reason}</bdi>
          </>
        )}
        <RevokeForm mappingId={id} filed={filed} left={revoked !== null} isDone={revoked !== null && rows === 0} />
      </td>
    </tr>
  )
}

/** What texts of each source, or of one, were decided to mean, with who decided it and the way to revoke it; nothing where there is none or it may not be seen. */
export async function Mappings({ source = null }: { readonly source?: string | null }) {
  const outcome = await mappingsPart()
  const shown = outcome.ok ? outcome.value.filter((mapping) => source === null || mapping.source === source) : []
  if (shown.length === 0) return null
  return (
    <section aria-labelledby="mappings">
      <h2 id="mappings">What texts of a source mean</h2>
      <p className="soft">
        Decided by a person, in force for later files of the source until somebody revokes it. Revoking one takes back what was filed with it: it
        counts no longer, and its rows wait for a decision again.
      </p>
      <table className="table stacked">
        <TableHead columns={COLUMNS} />
        <tbody>
          {shown.map((mapping) => (
            <Mapping key={mapping.id} mapping={mapping} />
          ))}
        </tbody>
      </table>
    </section>
  )
}
