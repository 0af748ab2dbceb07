import { NotShown } from '../_parts/NotShown.tsx'
import { OpenSessions } from '../_parts/session/OpenSessions.tsx'
import { ownSessionsPart } from '../_server/pages.ts'
import { endOneOfMine, endOthersOfMine } from '../_server/sessionActs.ts'
import { EndOthers } from './EndOthers.tsx'

/** Where one is signed in, with a way to end what one does not use any more. */
export async function OwnSessions() {
  const outcome = await ownSessionsPart()
  if (!outcome.ok) return <NotShown refusal={outcome} />
  return (
    <section className="no-print" aria-labelledby="own-sessions">
      <h2 id="own-sessions">Where you are signed in</h2>
      <p className="soft">
        Each ends after 15 minutes without a sign of life, and 12 hours after signing in. End one you do not know, and tell the administrator.
      </p>
      <OpenSessions sessions={outcome.value} endOne={endOneOfMine} />
      <EndOthers others={outcome.value.filter(({ isThis }) => !isThis).length} act={endOthersOfMine} />
    </section>
  )
}
