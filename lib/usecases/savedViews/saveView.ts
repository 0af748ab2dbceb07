import type { StoredView, Tx } from '../../store/index.ts'
import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { momentSays } from '../rounds/momentSays.ts'
import type { ListQuery } from '../views.ts'
import { ASKS, asksNothing, asksOf } from './asks.ts'
import { viewName } from './viewName.ts'

/** A view as it is to be kept; `shown` names the version a form showed, null makes a new one. */
export interface ViewWish {
  readonly name: string
  /** For the whole clinic, else for whoever keeps it. */
  readonly shared: boolean
  readonly query: ListQuery
  readonly shown: { readonly id: number; readonly version: number } | null
}

/** The view somebody was shown, if it is still that one and theirs or the clinic's; else refuses and says who changed it and when. */
export function shownView(tx: Tx, { id, version }: { readonly id: number; readonly version: number }, person: string): StoredView {
  const view = tx.savedView(id)
  if (view === null || (view.owner !== null && view.owner !== person))
    return refuse('not-found', 'No view of yours or of the clinic has this number.')
  if (view.removed) refuse('invalid', `Meanwhile ${view.by} removed this view (${momentSays(view.at)}).`)
  if (view.version !== version) refuse('invalid', `Meanwhile ${view.by} changed this view (${momentSays(view.at)}). Look again before you change it.`)
  return view
}

/** Keeps filters and order of the list under a name: a new view, or the next version of the one that was shown. */
export async function saveView(call: Call, wish: ViewWish): Promise<Outcome<{ readonly viewId: number; readonly version: number }>> {
  const refused = await refusedUnlessMay(call, 'view.write', 'saved view')
  if (refused !== null) return refused
  const read = ASKS.safeParse(asksOf(wish.query))
  if (!read.success) return { ok: false, kind: 'invalid', reason: 'This is no question the list can be asked.' }
  const asks = read.data
  if (asksNothing(asks))
    return { ok: false, kind: 'invalid', reason: 'Nothing is filtered and the order is the usual one: there is nothing to keep.' }
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const person = call.actor.name
      const before = wish.shown === null ? null : shownView(tx, wish.shown, person)
      const ownerId = wish.shared ? null : (tx.account(person)?.id ?? refuse('invalid', 'Only somebody with an account has views of their own.'))
      const name = viewName(tx, wish.name, person, before?.id ?? null)
      const made = { id: before?.id ?? null, name, ownerId, asks: JSON.stringify(asks), removed: false, by: person, at: call.now }
      const { id, version } = tx.insertView(made)
      const digests = { before: before === null ? null : canonicalSha256(before), after: canonicalSha256(tx.savedView(id)) }
      return { value: { viewId: id, version }, events: [{ action: 'view-saved', viewId: id, version, ...digests }] }
    }),
  )
}
