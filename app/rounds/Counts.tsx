import { TableHead } from '../_parts/TableHead.tsx'

interface Props {
  readonly says: string
  readonly columns: readonly [string, ...string[]]
  readonly rows: readonly { readonly name: string; readonly counts: readonly (number | string)[] }[]
  readonly none: string
}

/** One small table of the summary; a sentence where it has no rows. */
export function Counts({ says, columns, rows, none }: Props) {
  return (
    <section>
      <h2>{says}</h2>
      {rows.length === 0 ? (
        <p>{none}</p>
      ) : (
        <table className="table">
          <TableHead columns={columns} />
          <tbody>
            {rows.map(({ name, counts }) => (
              <tr key={name}>
                <th scope="row">
                  <bdi>{name}</bdi>
                </th>
                {counts.map((count, index) => (
                  <td key={columns[index + 1]} data-label={columns[index + 1]}>
                    {count}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  )
}
