import { memo } from 'react'
import { type CourseMode, type CoursePlan, courseTable, dayAt } from '../../../lib/charts/inBrowser.ts'
import { Scroll } from '../chart/index.ts'

interface Props {
  readonly plan: CoursePlan
  readonly mode: CourseMode
  readonly laboratory: string | null
}

function MarkTable({ plan }: Pick<Props, 'plan'>) {
  const marks = plan.panels.flatMap(({ name, marks: own }) => own.map((mark) => ({ ...mark, name })))
  if (marks.length === 0) return null
  return (
    <table className="table">
      <caption>Marks in the picture</caption>
      <thead>
        <tr>
          <th scope="col">Marker</th>
          <th scope="col">Mark</th>
          <th scope="col">Drawn from</th>
        </tr>
      </thead>
      <tbody>
        {marks.map(({ name, label, day }) => (
          <tr key={`${name}-${label}`}>
            <th scope="row">{name}</th>
            <td>{label}</td>
            <td>{dayAt(plan, day)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** What stands above the panels: phases, lines, marrow and imaging, with their days. */
function SpanTable({ plan }: Pick<Props, 'plan'>) {
  const { phases, lines, events } = plan
  const spans = [...phases, ...lines].map(({ from, to, label }) => ({ from, label, days: `${dayAt(plan, from)} to ${dayAt(plan, to)}` }))
  const all = [...spans, ...events.map(({ day, says }) => ({ from: day, label: says, days: dayAt(plan, day) }))].toSorted((a, b) => a.from - b.from)
  if (all.length === 0) return null
  return (
    <table className="table">
      <caption>Phases, treatment lines, marrow and imaging</caption>
      <thead>
        <tr>
          <th scope="col">Days</th>
          <th scope="col">What</th>
        </tr>
      </thead>
      <tbody>
        {all.map(({ label, days }) => (
          <tr key={`${days} ${label}`}>
            <th scope="row">{days}</th>
            <td>{label}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

/** Every number of the picture in words: each sample, newest first, in the mode of the picture, and every mark. */
export const CourseTableBox = memo(function CourseTableBox({ plan, mode, laboratory }: Props) {
  const { columns, rows } = courseTable(plan, mode, laboratory)
  if (rows.length === 0) return null
  const noted = rows.some(({ note }) => note !== '')
  return (
    <details className="course-table">
      <summary>Table of the course: every sample, mark, line and examination</summary>
      <Scroll className="chart-tables" named="Tables of the course">
        <table className="table">
          <caption>Every sample, newest first</caption>
          <thead>
            <tr>
              <th scope="col">Day</th>
              {columns.map((column) => (
                <th scope="col" key={column}>
                  {column}
                </th>
              ))}
              {noted && <th scope="col">Note</th>}
            </tr>
          </thead>
          <tbody>
            {rows.map(({ on, cells, note }) => (
              <tr key={on}>
                <th scope="row">{on}</th>
                {cells.map((cell, at) => (
                  <td key={columns[at]}>{cell}</td>
                ))}
                {noted && <td>{note}</td>}
              </tr>
            ))}
          </tbody>
        </table>
        <MarkTable plan={plan} />
        <SpanTable plan={plan} />
      </Scroll>
    </details>
  )
})
