import type { WritingConnection } from '../connection.ts'
import type { Store } from '../store.ts'
import { txOf } from '../tx.ts'
import { touchSession } from '../write/accounts.ts'
import { appendTrail } from '../write/appendTrail.ts'
import { writeProbe } from '../write/probe.ts'
import { type Writer, writerOn } from '../write/writer.ts'

/** How long another program's write is waited for. */
export const PATIENCE_MS = 15_000

/** What a store does to change anything, on either engine. */
export interface Changing extends Pick<Store, 'record' | 'touchSession' | 'probeWrite'> {
  readonly writer: Writer
}

/** The writing half of a store: a change and its entries of the log in one transaction. */
export function changingOn(writing: WritingConnection, patienceMs: number): Changing {
  const writer = writerOn(writing, patienceMs)
  const tx = txOf(writing)
  return {
    writer,
    record: (call, change) =>
      writer.write(() => {
        const { value, events, actor = call.actor } = change(tx)
        if (events.length === 0) throw new Error('A change without a log row is refused.')
        appendTrail(writing, { actor, now: call.now }, events)
        return value
      }),
    touchSession: (id, at) => writer.write(() => touchSession(writing, id, at)),
    probeWrite: (at) => writer.write(() => writeProbe(writing, at)),
  }
}
