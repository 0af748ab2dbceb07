import type { Reader } from '../../store/index.ts'
import { HAVING_ROLES } from '../assignments/assignPatient.ts'
import type { Call } from '../call.ts'
import { ASKS } from '../savedViews/asks.ts'
import { handedIn } from './handedIn.ts'
import { answeredIn, progressOf } from './progress.ts'
import { roundView } from './roundView.ts'
import type { RoundOfList, SavedViewView } from './views.ts'

/** Rounds one can compare with: about half a year of weeks. */
const EARLIER = 26

/** The number of the round the list is compared with: the one asked for where it ended, else the last that ended; null where none has. */
export function comparedWith(reader: Pick<Reader, 'round' | 'endedRounds'>, wanted: number | null): number | null {
  const asked = wanted === null ? null : reader.round(wanted)
  return asked !== null && asked.endedAt !== null ? asked.id : (reader.endedRounds(1)[0]?.id ?? null)
}

function viewsFor({ store, actor }: Call): SavedViewView[] {
  return store.reader.savedViews().flatMap(({ id, version, name, owner, asks, by }) => {
    const read = ASKS.safeParse(JSON.parse(asks))
    const inSight = owner === null || owner === actor.name
    return inSight && read.success ? [{ viewId: id, version, name, shared: owner === null, by, asks: read.data }] : []
  })
}

/** What the list says of rounds, of who has whom and of views kept, all at one moment. */
export function roundOfList(call: Call, sinceId: number | null, followed: number): RoundOfList {
  const { reader } = call.store
  return reader.atOnce(() => {
    const running = reader.runningRound()
    const since = sinceId === null ? null : reader.round(sinceId)
    const span = running === null ? null : { from: running.startedAt, to: call.now }
    const accounts = reader.accounts()
    const having = reader.havingNow()
    return {
      running: running === null ? null : roundView(running),
      progress: span === null ? null : progressOf(reader, answeredIn(reader, span), null, reader.countOpen()),
      handedOver: span === null ? 0 : handedIn(reader, span).length,
      since: since === null ? null : roundView(since),
      news: since === null ? null : reader.newsCounts(since.id),
      earlier: reader.endedRounds(EARLIER).map(roundView),
      having,
      nobodys: followed - having.reduce((sum, { patients }) => sum + patients, 0),
      people: accounts
        .filter(({ role, disabledAt }) => disabledAt === null && HAVING_ROLES.includes(role))
        .map(({ id, name, role }) => ({ accountId: id, name, role })),
      you: accounts.find(({ name }) => name === call.actor.name)?.id ?? null,
      views: viewsFor(call),
    }
  })
}
