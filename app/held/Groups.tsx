import Link from 'next/link'
import type { HeldPageView } from '../../lib/usecases/index.ts'
import { testName } from '../_parts/patient/names.ts'
import { TableHead } from '../_parts/TableHead.tsx'
import { counted, words } from '../_parts/words.ts'

const RANKS = [
  'Can hide a danger: the code is one of calcium, haemoglobin, creatinine, platelets, neutrophils, free light chains or plasma cells',
  'The code is not known: it may be any test',
  'Other results',
  'Courses',
  'Patients',
]
const COLUMNS = ['Why it waits', 'As received', 'From', 'Rows', 'Latest sample']

type Group = HeldPageView['groups'][number]

function GroupRow({ group }: { readonly group: Group }) {
  const { heldId, kind, source, fileName, reason, rows, patients, receivedOn, latestCollectedOn, texts, analyte } = group
  return (
    <tr>
      <th scope="row">
        <Link href={`/held/${heldId}`} prefetch={false}>
          {words(reason)}
        </Link>
      </th>
      <td data-label="As received">
        <span className="received">{texts.length === 0 ? 'nothing' : texts.join(' ')}</span>
        {analyte !== null && `, ${testName(analyte)}`}
      </td>
      <td data-label="From">
        {source === null ? (
          <>
            not named; file <bdi>{fileName}</bdi>
          </>
        ) : (
          <bdi>{source}</bdi>
        )}
      </td>
      <td data-label="Rows">
        <strong>{counted(rows, 'row')}</strong> of {counted(patients, 'patient')}
      </td>
      <td data-label="Latest sample">
        {latestCollectedOn ?? (kind === 'patients' ? 'no sample' : 'day not read')}, waiting since {receivedOn}
      </td>
    </tr>
  )
}

/** The queue by what rows have in common, in the order in which it hides the most. */
export function Groups({ groups }: { readonly groups: readonly Group[] }) {
  const ranks = [...new Set(groups.map(({ rank }) => rank))]
  return (
    <table className="table stacked held-groups">
      <TableHead columns={COLUMNS} />
      {ranks.map((rank) => (
        <tbody key={rank}>
          <tr>
            <th className="held-rank" colSpan={COLUMNS.length} scope="rowgroup">
              {RANKS[rank]}
            </th>
          </tr>
          {groups
            .filter((group) => group.rank === rank)
            .map((group) => (
              <GroupRow key={group.heldId} group={group} />
            ))}
        </tbody>
      ))}
    </table>
  )
}
