import type { ModelView } from '../../../lib/usecases/index.ts'
import { TableHead } from '../TableHead.tsx'

/** The published tables of a model: few and short columns, so that they stay tables on a narrow screen. */
export function ModelTables({ tables }: Pick<ModelView, 'tables'>) {
  return tables.map(({ caption, head, rows }) => (
    <table className="table" key={caption}>
      <caption>{caption}</caption>
      <TableHead columns={head} />
      <tbody>
        {rows.map((cells) => (
          <tr key={cells.join('|')}>
            {cells.map((cell, at) => (
              <td key={head[at]}>{cell}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  ))
}
