'use client'

import type { OccasionRow, OccasionsView } from '../../../lib/usecases/index.ts'
import { counted, words } from '../words.ts'
import { BehindTable } from './BehindTable.tsx'
import { Found } from './Found.tsx'

interface Props {
  /** The fields the answer is asked with: period, by what told apart, which row, which verdict. */
  readonly asked: Readonly<Record<string, string>>
  readonly pseudonymous: boolean
}

const COLUMNS = ['Test', 'Due', 'Grace ended', 'Done', 'What happened', 'Phase', 'Plan']

function happened({ verdict, daysLate }: Pick<OccasionRow, 'verdict' | 'daysLate'>): string {
  return verdict === 'late' ? `late by ${counted(daysLate, 'day')}` : words(verdict)
}

/** The tests behind a row of the audit. */
export function Tests({ asked, pseudonymous }: Props) {
  return (
    <Found<OccasionsView> at="/follow-up/tests/work" asked={asked} says="Finding the tests needs JavaScript.">
      {(view) => (
        <BehindTable
          view={view}
          pseudonymous={pseudonymous}
          one="test"
          first="latest"
          none="No test fits this"
          columns={COLUMNS}
          keyOf={({ group, dueOn }) => `${group} ${dueOn}`}
        >
          {(row) => (
            <>
              <td data-label="Test">{words(row.group)}</td>
              <td data-label="Due">{row.dueOn}</td>
              <td data-label="Grace ended">{row.graceEndsOn}</td>
              <td data-label="Done">{row.doneOn ?? 'not done'}</td>
              <td data-label="What happened">
                <b>{happened(row)}</b>
              </td>
              <td data-label="Phase">{row.phase === null ? 'not recorded' : words(row.phase)}</td>
              <td data-label="Plan">version {row.planVersion}</td>
            </>
          )}
        </BehindTable>
      )}
    </Found>
  )
}
