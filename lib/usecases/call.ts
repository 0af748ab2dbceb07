import type { Store } from '../store/index.ts'
import type { Day } from '../time/index.ts'
import type { Actor } from '../trail/index.ts'

/** What every use case is given: where, who, when. The clock is read once, by whoever calls. */
export interface Call {
  readonly store: Store
  readonly actor: Actor
  /** UTC, ISO 8601 with milliseconds and Z. */
  readonly now: string
  /** The clinic's calendar day. */
  readonly today: Day
}

/** What a use case answers. A refusal is an answer with its reason, never an exception. */
export type Outcome<T> =
  | { readonly ok: true; readonly value: T }
  | {
      readonly ok: false
      readonly kind: 'not-allowed' | 'not-found' | 'invalid' | 'unavailable'
      readonly reason: string
      /** What is wrong in which field of a form, where that can be told. */
      readonly fields?: readonly { readonly field: string; readonly says: string }[]
      /** The record is closed: whoever may can open it as an emergency view. Absent for every other refusal. */
      readonly closed?: true
      /** A consequence that was shown no longer holds, because something arrived or the form says something else. Absent for every other refusal. */
      readonly stale?: 'arrived' | 'other'
    }
