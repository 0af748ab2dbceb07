import type { Metadata } from 'next'
import type { Check, HealthState } from '../../lib/usecases/index.ts'
import { NotShown } from '../_parts/NotShown.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { counted, instantText } from '../_parts/words.ts'
import { systemPage } from '../_server/pages.ts'

export const metadata: Metadata = { title: 'System' }

const STATE_WORDS: Readonly<Record<HealthState, string>> = { fail: 'Failed', warn: 'Needs a look', ok: 'In order' }

const WHAT_WORDS: Readonly<Record<Check['what'], string>> = {
  database: 'Database',
  backup: 'Backup',
  intake: 'Intake from',
  log: 'Log',
  'log-head': "Log's head elsewhere",
  disk: 'Disk',
  schema: 'Version of the database',
}

/** "1 thing failed, 2 things need a look." */
function summary(checks: readonly Check[]): string {
  const [failed, look] = (['fail', 'warn'] as const).map((state) => checks.filter((check) => check.state === state).length)
  if (failed === 0 && look === 0) return 'Everything that is looked at is in order.'
  const parts = [
    ...(failed === 0 ? [] : [`${counted(failed ?? 0, 'thing')} failed`]),
    ...(look === 0 ? [] : [`${counted(look ?? 0, 'thing')} ${look === 1 ? 'needs' : 'need'} a look`]),
  ]
  return `${parts.join(', ')}. What is wrong stands first.`
}

/** What runs and what does not, for the administrator. */
export default async function Page() {
  const outcome = await systemPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { status, at, checks } = outcome.value
  return (
    <>
      <h1>System</h1>
      <p className={status === 'ok' ? 'notice' : 'notice notice-alert'}>{summary(checks)}</p>
      <table className="table stacked">
        <TableHead columns={['What', 'State', 'What was found', 'What to do', 'Limit']} />
        <tbody>
          {checks.map(({ what, of, state, says, doThis, limit, at: on }) => (
            <tr key={`${what} ${of ?? ''}`}>
              <td>
                {WHAT_WORDS[what]} {of !== null && <bdi>{of}</bdi>}
              </td>
              <td className={state === 'ok' ? undefined : 'late'} data-label="State">
                {STATE_WORDS[state]}
              </td>
              <td>
                <bdi>{says}</bdi>
                {on !== null && <div className="small soft">{instantText(on)}</div>}
              </td>
              <td data-label="What to do">{doThis ?? '-'}</td>
              <td data-label="Limit" className="small soft">
                {limit}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small soft">
        Looked at {instantText(at)}. The limits are Lowmark's own. docs/backup.md says how to make, keep and restore backups.
      </p>
    </>
  )
}
