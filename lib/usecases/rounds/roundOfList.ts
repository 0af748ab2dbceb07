import { HAVING_ROLES } from '../assignments/assignPatient.ts'
import type { Call } from '../call.ts'
import { ASKS } from '../savedViews/asks.ts'
import { roundNow } from './roundNow.ts'
import { roundView } from './roundView.ts'
import type { RoundOfList, SavedViewView } from './views.ts'

/** Rounds one can compare with: about half a year of weeks. */
const EARLIER = 26

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
    const accounts = reader.accounts()
    const having = reader.havingNow()
    return {
      ...roundNow(call, sinceId),
      running: running === null ? null : roundView(running),
      since: since === null ? null : roundView(since),
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
