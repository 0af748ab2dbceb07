'use client'

import type { WaitingKind } from '../../../lib/followup/index.ts'
import type { WaitingView } from '../../../lib/usecases/index.ts'
import { words } from '../words.ts'
import { BehindTable } from './BehindTable.tsx'
import { Found } from './Found.tsx'

interface Props {
  readonly asked: Readonly<Record<string, string>>
  readonly what: WaitingKind
  readonly pseudonymous: boolean
}

const COLUMNS: Readonly<Record<WaitingKind, readonly [what: string, since: string, until: string, days: string]>> = {
  overdue: ['Test', 'Due', 'Overdue on', 'Days past due'],
  unanswered: ['Finding', 'First shown', 'Watched until', 'Days without an answer'],
  'no-second': ['Finding', 'First shown', 'Watched until', 'Days without a second sample'],
}

/** What waits behind a figure of the audit: whose it is, and how long. */
export function Waits({ asked, what, pseudonymous }: Props) {
  const columns = COLUMNS[what]
  const [thing, since, until, days] = columns
  return (
    <Found<WaitingView> at="/follow-up/waiting/work" asked={asked} says="Finding what waits needs JavaScript.">
      {(view) => (
        <BehindTable
          view={view}
          pseudonymous={pseudonymous}
          one={what === 'overdue' ? 'test' : 'finding'}
          first="longest"
          none="Nothing waits here"
          columns={columns}
          keyOf={(row) => `${row.what} ${row.since}`}
        >
          {(row) => (
            <>
              <td data-label={thing}>{what === 'overdue' ? words(row.what) : row.what}</td>
              <td data-label={since}>{row.since}</td>
              <td data-label={until}>{row.until}</td>
              <td data-label={days}>
                <b>{row.days}</b>
              </td>
            </>
          )}
        </BehindTable>
      )}
    </Found>
  )
}
