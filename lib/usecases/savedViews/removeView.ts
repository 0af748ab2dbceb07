import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { unlessRefused } from '../decisions/decide.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { shownView } from './saveView.ts'

/** Takes a saved view out of sight: a version of its own, so that what it was stays kept. */
export async function removeView(call: Call, shown: { readonly id: number; readonly version: number }): Promise<Outcome<null>> {
  const refused = await refusedUnlessMay(call, 'view.write', 'saved view')
  if (refused !== null) return refused
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const before = shownView(tx, shown, call.actor.name)
      const ownerId = before.owner === null ? null : (tx.account(before.owner)?.id ?? null)
      const { id, version } = tx.insertView({ ...before, ownerId, removed: true, by: call.actor.name, at: call.now })
      return { value: null, events: [{ action: 'view-removed', viewId: id, version, before: canonicalSha256(before) }] }
    }),
  )
}
