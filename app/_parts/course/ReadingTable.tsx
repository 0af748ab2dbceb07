import { memo } from 'react'
import { NEAR_DAYS } from '../../../lib/charts/inBrowser.ts'
import { Scroll } from '../chart/index.ts'
import { useDayRead } from './DayRead.tsx'

/** All markers on the day of the cursor: each with its change from the lowest confirmed value and, where its sample is of another day, that day. */
export const ReadingTable = memo(function ReadingTable() {
  const { on, rows, beside } = useDayRead().reading
  const counted = rows.some(({ change }) => change !== null)
  return (
    <Scroll className="course-reading" named="Values of the day read">
      <table className="table">
        <caption>
          <b>On {on}</b>
          {beside.length > 0 && `: ${beside.join('; ')}`}
        </caption>
        <thead>
          <tr>
            <th scope="col">Marker</th>
            <th scope="col">Value</th>
            {counted && <th scope="col">From lowest confirmed</th>}
            <th scope="col">Sample</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, value, change, own, notes }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td>{value === null ? 'not told' : <b>{value}</b>}</td>
              {counted && <td>{change ?? (value === null ? '' : 'as measured')}</td>}
              <td>{value === null ? `none within ${NEAR_DAYS} days` : [own ?? 'that day', ...notes].join('; ')}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Scroll>
  )
})
