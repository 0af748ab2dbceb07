'use client'

import Link from 'next/link'
import { useEffect, useRef } from 'react'
import type { OccasionRow, OccasionsView } from '../../../lib/usecases/index.ts'
import { Progress } from '../Progress.tsx'
import { Said } from '../Said.tsx'
import { TableHead } from '../TableHead.tsx'
import { counted, words } from '../words.ts'
import { useWork } from './useWork.ts'

interface Props {
  /** The fields the answer is asked with: period, by what told apart, which row, which verdict. */
  readonly asked: Readonly<Record<string, string>>
  readonly pseudonymous: boolean
}

const COLUMNS = ['Test', 'Due', 'Grace ended', 'Done', 'What happened', 'Phase', 'Plan']

function Whose({ patientId, pseudonym, name, address }: OccasionRow) {
  if (pseudonym !== null) {
    return (
      <Link className="pseudonym" href={`/cohort/${pseudonym}`} prefetch={false}>
        {pseudonym}
      </Link>
    )
  }
  if (address === null) {
    return (
      <>
        <bdi>{patientId}</bdi>
        <div className="small soft">record closed</div>
      </>
    )
  }
  return (
    <>
      <Link href={`/patients/${address}`} prefetch={false}>
        <bdi>{name ?? patientId}</bdi>
      </Link>
      {name !== null && (
        <div className="small soft">
          <bdi>{patientId}</bdi>
        </div>
      )}
    </>
  )
}

function happened({ verdict, daysLate }: OccasionRow): string {
  return verdict === 'late' ? `late by ${counted(daysLate, 'day')}` : words(verdict)
}

function TestsTable({ view, pseudonymous }: { readonly view: OccasionsView; readonly pseudonymous: boolean }) {
  const { rows, found } = view
  const people = new Set(rows.map(({ patientId, pseudonym }) => pseudonym ?? patientId)).size
  if (found === 0) return <p className="notice">No test fits this any more: the data have changed since the figures were worked out.</p>
  return (
    <>
      <p>
        {counted(found, 'test')} of {counted(people, 'patient')}
        {rows.length < found && `; the first ${rows.length} are shown`}. The latest first.
      </p>
      <table className="table stacked">
        <TableHead columns={[pseudonymous ? 'Pseudonym' : 'Patient', ...COLUMNS]} />
        <tbody>
          {rows.map((row) => (
            <tr key={`${row.pseudonym ?? row.patientId} ${row.group} ${row.dueOn}`}>
              <td>
                <Whose {...row} />
              </td>
              <td data-label="Test">{words(row.group)}</td>
              <td data-label="Due">{row.dueOn}</td>
              <td data-label="Grace ended">{row.graceEndsOn}</td>
              <td data-label="Done">{row.doneOn ?? 'not done'}</td>
              <td data-label="What happened">
                <b>{happened(row)}</b>
              </td>
              <td data-label="Phase">{row.phase === null ? 'not recorded' : words(row.phase)}</td>
              <td data-label="Plan">version {row.planVersion}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">Revision {view.revision} of the data. The log keeps whose these are, and who was shown them.</p>
    </>
  )
}

/** The tests behind a row of the audit, found in a process apart; whose they are is in the log before they are shown. */
export function Tests({ asked, pseudonymous }: Props) {
  const { step, outcome, run } = useWork<OccasionsView>('/follow-up/tests/work')
  const begun = useRef(false)
  useEffect(() => {
    if (begun.current) return
    begun.current = true
    void run(asked)
  }, [asked, run])
  return (
    <div className="followup-tests">
      <div role="status">{step !== null && <Progress step={step} />}</div>
      {outcome?.ok === false && (
        <>
          <Said outcome={outcome} />
          <button className="button button-quiet" type="button" onClick={() => void run(asked)}>
            Try again
          </button>
        </>
      )}
      {outcome?.ok && <TestsTable view={outcome.value} pseudonymous={pseudonymous} />}
      <noscript>
        <p>Finding the tests needs JavaScript.</p>
      </noscript>
    </div>
  )
}
