import Link from 'next/link'
import { type Dimension, type GroupRow, LEAST_SHOWN, OTHERS } from '../../../lib/followup/index.ts'
import type { OccasionsWish } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'
import { type AskedFields, testsAddress } from './address.ts'
import { DIMENSION_WORDS, rowName } from './names.ts'
import { percent, percentInterval } from './numbers.ts'

interface Props {
  readonly by: Dimension
  readonly rows: readonly GroupRow[]
  /** Null where no number leads on: on paper. */
  readonly asked: AskedFields | null
}

const COUNTS = [
  { says: 'Due', of: 'due', verdict: null },
  { says: 'On time', of: 'onTime', verdict: 'on-time' },
  { says: 'Late', of: 'late', verdict: 'late' },
  { says: 'Missed', of: 'missed', verdict: 'missed' },
] as const satisfies readonly { says: string; of: keyof GroupRow; verdict: OccasionsWish['verdict'] }[]
const FIGURES = [...COUNTS.map(({ says }) => says), 'Share on time', '95 % interval']

/** What the row `Others` stands for. */
function OthersSay({ rows }: Pick<Props, 'rows'>) {
  const others = rows.find(({ key }) => key === OTHERS)
  if (others === undefined) return null
  return (
    <p className="small soft">
      Others: {others.keys.length} groups together. A group with fewer than {LEAST_SHOWN} tests due is shown to nobody by itself; where it would stand
      alone, the smallest of the other groups joins it.
    </p>
  )
}

/** On-time testing told apart by one thing; each count leads to its tests. */
export function GroupTable({ by, rows, asked }: Props) {
  if (rows.length === 0) return <p className="soft">Nothing was due in this period.</p>
  return (
    <>
      <table className="table stacked">
        <TableHead columns={[DIMENSION_WORDS[by], ...FIGURES]} figures={FIGURES} />
        <tbody>
          {rows.map((row) => (
            <tr key={row.key}>
              <td>
                <b>
                  <bdi>{rowName(by, row.key)}</bdi>
                </b>
              </td>
              {COUNTS.map(({ says, of, verdict }) => (
                <td className="number" key={says} data-label={says}>
                  {asked === null || row[of] === 0 ? (
                    row[of]
                  ) : (
                    <Link href={testsAddress(asked, by, row.key, verdict)} prefetch={false}>
                      {row[of]}
                      <span className="sr-only">
                        {' '}
                        {says.toLowerCase()}, {rowName(by, row.key)}
                      </span>
                    </Link>
                  )}
                </td>
              ))}
              <td className="number" data-label="Share on time">
                {row.proportion === null ? '-' : percent(row.proportion)}
              </td>
              <td className="number" data-label="95 % interval">
                {row.wilson95 === null ? '-' : percentInterval(row.wilson95)}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <OthersSay rows={rows} />
    </>
  )
}
