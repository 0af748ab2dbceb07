import type { Metadata } from 'next'
import { NotShown } from '../_parts/NotShown.tsx'
import { lookChosen } from '../_server/look.ts'
import { ownAccountPage } from '../_server/pages.ts'
import { ChangePassword } from './ChangePassword.tsx'
import { DoFirst } from './DoFirst.tsx'
import { LookForm } from './LookForm.tsx'
import { OwnSessions } from './OwnSessions.tsx'
import { SecondFactor } from './SecondFactor.tsx'
import './account.css'

export const metadata: Metadata = { title: 'Your account' }

/** What a person sets of the own account. The one page that is open before a second factor that is required has been set up. */
export default async function Page() {
  const outcome = await ownAccountPage()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  const { name, role, hasPassword, secondFactor, leastCharacters, confinement } = outcome.value
  return (
    <div className="narrow account">
      <h1>Your account</h1>
      <p>
        <bdi>{name}</bdi>, {role}
      </p>
      <DoFirst confinement={confinement} />
      {hasPassword ? (
        <>
          <SecondFactor factor={secondFactor} />
          <ChangePassword leastCharacters={leastCharacters} asksForCode={secondFactor.isOn} />
        </>
      ) : (
        <p className="soft">This account has no password of its own: you sign in by your clinic's own sign-in.</p>
      )}
      <OwnSessions />
      <LookForm look={await lookChosen()} />
    </div>
  )
}
