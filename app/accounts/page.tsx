import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { TableHead } from '../_parts/TableHead.tsx'
import { instantText } from '../_parts/words.ts'
import { accountsPage } from '../_server/pages.ts'
import { AccountActions } from './AccountActions.tsx'
import { AccountSessions } from './AccountSessions.tsx'
import { AddForm } from './AddForm.tsx'

export const metadata: Metadata = { title: 'Accounts' }

export default async function Page() {
  const outcome = await accountsPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <>
      <h1>Accounts</h1>
      <AddForm />
      <table className="table stacked">
        <TableHead columns={['Name', 'Role', 'State', 'Added', 'Last sign-in', 'Open sessions', 'Second factor', 'Change']} />
        <tbody>
          {outcome.value.map((account) => (
            <tr key={account.name}>
              <td>
                <bdi>{account.name}</bdi>
              </td>
              <td data-label="Role">{account.role}</td>
              <td data-label="State">
                {account.state}
                {account.joined && account.state !== 'disabled' && ', joined to single sign-on'}
              </td>
              <td data-label="Added">{instantText(account.createdAt)}</td>
              <td data-label="Last sign-in">{account.lastSignInAt === null ? 'never' : instantText(account.lastSignInAt)}</td>
              <td data-label="Open sessions">
                <AccountSessions name={account.name} sessions={account.sessions} />
              </td>
              <td data-label="Second factor">{account.hasSecondFactor ? 'set up' : 'none'}</td>
              <td>
                {account.state === 'disabled' ? (
                  'disabled for good'
                ) : (
                  <AccountActions
                    name={account.name}
                    role={account.role}
                    openSessions={account.sessions.length}
                    joined={account.joined}
                    hasSecondFactor={account.hasSecondFactor}
                  />
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  )
}
