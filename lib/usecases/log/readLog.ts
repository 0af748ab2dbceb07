import { may } from '../../access/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import type { TrailRowView } from '../views.ts'
import { namingOf } from './naming.ts'
import { pageOf, rowViews } from './rowView.ts'

/** Entries on one page. */
export const LOG_PAGE = 50

export interface TrailPage {
  readonly rows: readonly TrailRowView[]
  /** How many entries there are on all pages. */
  readonly total: number
  /** The page after this one begins before this entry; null on the last. */
  readonly next: number | null
  readonly scope: 'own' | 'all'
}

const EVERY_ENTRY = { shown: null, actions: null, only: null, from: null, to: null } as const

/**
 * The log, newest first, from before an entry on: all of it for those who may, else the reader's own entries. Reading it is an entry of its own.
 */
export async function readTrail(call: Call, before: number | null): Promise<Outcome<TrailPage>> {
  const refused = await refusedUnlessMay(call, 'log.read-own', 'log')
  if (refused !== null) return refused
  const { actor, store } = call
  // Told before the entry is made, so that nothing is entered of a log that cannot be shown.
  const naming = namingOf(call)
  if (!naming.ok) return naming
  const all = may(actor.role === 'none' ? null : actor.role, 'log.read-all').allowed
  const scope = all ? 'all' : 'own'
  await store.record(call, () => ({ value: null, events: [{ action: 'log-read', scope }] }))
  const { rows, total } = store.reader.askTrail({ ...EVERY_ENTRY, actor: all ? null : actor.name, before }, LOG_PAGE + 1)
  const { shown, next } = pageOf(rows, LOG_PAGE)
  const views = rowViews(call, shown)
  return views.ok ? { ok: true, value: { rows: views.value, total, next, scope } } : views
}
