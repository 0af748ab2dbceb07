import type { SessionView } from '../../lib/usecases/index.ts'
import { OpenSessions } from '../_parts/session/OpenSessions.tsx'
import { counted } from '../_parts/words.ts'
import { endOneOfPerson } from '../_server/sessionActs.ts'

/** The open sessions of one account, each with a way to end it. */
export function AccountSessions({ name, sessions }: { readonly name: string; readonly sessions: readonly SessionView[] }) {
  if (sessions.length === 0) return 'none'
  return (
    <details>
      <summary>
        {counted(sessions.length, 'session')}
        <span className="sr-only"> of {name}</span>
      </summary>
      <OpenSessions sessions={sessions} endOne={endOneOfPerson} name={name} />
    </details>
  )
}
