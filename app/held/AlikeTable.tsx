'use client'

import { useState } from 'react'
import type { HeldDetailView } from '../../lib/usecases/index.ts'

interface Props {
  readonly alike: HeldDetailView['alike']
  /** Whether the values of patients beside the rows may be seen; else nothing tells which row stands out. */
  readonly seesPatients: boolean
  readonly left: ReadonlySet<number>
  readonly leave: (heldId: number, out: boolean) => void
}

/** Rows shown before a person asks for all; those that stand out always are. */
const FIRST = 10

/** The rows alike, what each would say and the patient's own value beside it; those that stand out first. */
export function AlikeTable({ alike: { rows, shown, odd }, seesPatients, left, leave }: Props) {
  const [all, setAll] = useState(false)
  const some = all ? shown : shown.slice(0, Math.max(FIRST, odd))
  return (
    <>
      {odd > 0 && (
        <p className="notice notice-alert">
          {odd} of them {odd === 1 ? 'lies' : 'lie'} far from the patient's own values (more than threefold) and {odd === 1 ? 'is' : 'are'} left out
          unless you take {odd === 1 ? 'it' : 'them'} in.
        </p>
      )}
      {!seesPatients && (
        <p className="notice notice-alert">
          Nobody compared these rows with the values of their patients: those are not shown to your role. A navigator or a physician sees which row
          lies far off.
        </p>
      )}
      <table className="table stacked held-alike">
        <thead>
          <tr>
            <th scope="col">Leave out</th>
            <th scope="col">Patient</th>
            <th scope="col">Collected</th>
            <th scope="col">As received</th>
            <th scope="col">Would say</th>
            {seesPatients && <th scope="col">Beside it</th>}
          </tr>
        </thead>
        <tbody>
          {some.map(({ heldId, patientId, collectedOn, received, says, beside, odd: isOdd }) => (
            <tr key={heldId} className={isOdd ? 'held-odd' : ''}>
              <td data-label="Leave out">
                <input
                  type="checkbox"
                  checked={left.has(heldId)}
                  onChange={(event) => leave(heldId, event.target.checked)}
                  aria-label={`Leave out row ${heldId}`}
                />
              </td>
              <td data-label="Patient">{patientId === null ? 'none named' : <bdi>{patientId}</bdi>}</td>
              <td data-label="Collected">{collectedOn ?? 'not read'}</td>
              <td data-label="As received">
                <span className="received">{received}</span>
              </td>
              <td data-label="Would say">
                {says ?? 'cannot be read'}
                {isOdd && <strong>, far off</strong>}
              </td>
              {seesPatients && <td data-label="Beside it">{beside ?? 'none'}</td>}
            </tr>
          ))}
        </tbody>
      </table>
      {some.length < shown.length && (
        <button className="button button-quiet" type="button" onClick={() => setAll(true)}>
          Show all {shown.length} rows
        </button>
      )}
      {rows > shown.length && (
        <p className="soft">
          The first {shown.length} of {rows} are shown; all of them are decided together.
        </p>
      )}
    </>
  )
}
