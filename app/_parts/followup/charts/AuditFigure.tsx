import type { ReactNode } from 'react'
import type { AuditChart, AuditTable } from '../../../../lib/charts/index.ts'
import { Scroll } from '../../chart/index.ts'
import { TableHead } from '../../TableHead.tsx'
import './charts.css'

/** Whether a chart's table is opened by a word, or stands beside the picture, on paper too. */
export type Tables = 'behind' | 'beside'

function Numbers({ table }: { readonly table: AuditTable }) {
  const { caption, columns, figures, rows } = table
  return (
    <Scroll className="audit-table" named={caption}>
      <table className="table">
        <caption>{caption}</caption>
        <TableHead columns={columns} figures={figures} />
        <tbody>
          {rows.map((cells) => (
            <tr key={cells[0]}>
              {cells.map((cell, at) => {
                const [column, kind] = [columns[at] ?? '', figures.includes(columns[at] ?? '') ? 'number' : undefined]
                return at === 0 ? (
                  <th scope="row" key={column} className={kind}>
                    {cell}
                  </th>
                ) : (
                  <td key={column} className={kind}>
                    {cell}
                  </td>
                )
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
}

interface Props<Picture> {
  readonly chart: AuditChart<Picture>
  readonly tables: Tables
  /** The picture and how to read it; left out where there is none. */
  readonly children: (picture: Picture) => ReactNode
}

/** A chart with its sentence first: what it says, the picture, what it rests on, and the same numbers in a table. */
export function AuditFigure<Picture>({ chart, tables, children }: Props<Picture>) {
  const { id, title, sentence, notes, picture, table } = chart
  return (
    <section className="audit-chart" aria-labelledby={`audit-${id}`}>
      <h3 id={`audit-${id}`}>{title}</h3>
      <p className="audit-says">{sentence}</p>
      {picture !== null && children(picture)}
      {notes.length > 0 && (
        <ul className="audit-notes" aria-label={`What "${title}" rests on`}>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      {table !== null &&
        (tables === 'beside' ? (
          <Numbers table={table} />
        ) : (
          <details className="audit-behind">
            <summary>
              Table<span className="sr-only"> of: {title}</span>
            </summary>
            <Numbers table={table} />
          </details>
        ))}
    </section>
  )
}
