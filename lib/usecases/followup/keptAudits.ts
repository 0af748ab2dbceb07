import type { Period } from '../../followup/index.ts'
import type { Store } from '../../store/index.ts'
import type { FollowUp } from './readFollowUp.ts'
import type { ReadFollowUpWish } from './readWish.ts'

/** An audit as this process keeps it for those who read it: working it out takes seconds, reading it none. */
export interface KeptAudit extends FollowUp {
  /** When it was worked out (UTC, ISO 8601). */
  readonly workedOutAt: string
}

/** So many are kept; whoever asks for an older one waits again. (ours) */
const MOST_KEPT = 8

type Kept = Map<string, KeptAudit>

// A page is bundled apart from a route, so that a map of this module would be two. In memory alone: figures are never kept on the disk beside what they are of.
const KEY = Symbol.for('lowmark.audits')
const shared = globalThis as { [KEY]?: WeakMap<Store, Kept> }

function keptOf(store: Store): Kept {
  shared[KEY] ??= new WeakMap()
  const kept = shared[KEY].get(store) ?? new Map<string, KeptAudit>()
  shared[KEY].set(store, kept)
  return kept
}

function keyOf({ from, to, cutOff }: Period, whatIf: ReadFollowUpWish['whatIf']): string {
  return [from, to, cutOff, whatIf?.version ?? ''].join(' ')
}

/** Keeps an audit in place of an earlier one of the same period, cut-off and plan. */
export function keepAudit(store: Store, { period, whatIf }: ReadFollowUpWish, audit: KeptAudit): void {
  const kept = keptOf(store)
  const key = keyOf(period, whatIf)
  kept.delete(key)
  kept.set(key, audit)
  for (const oldest of [...kept.keys()].slice(0, -MOST_KEPT)) kept.delete(oldest)
}

/** The audit that was worked out last of exactly that; null where none is kept. */
export function keptAudit(store: Store, { period, whatIf }: ReadFollowUpWish): KeptAudit | null {
  return keptOf(store).get(keyOf(period, whatIf)) ?? null
}
