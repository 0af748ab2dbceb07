import { statSync } from 'node:fs'
import { statfs } from 'node:fs/promises'
import { dirname } from 'node:path'
import type { Arrival, Store } from '../../store/index.ts'
import { type LastAnswers, lastAnswers } from './kept.ts'

/** What is looked at, before it is judged. Times are UTC, ISO 8601. */
export interface HealthFacts {
  readonly now: string
  /** Why one row could not be written; null where it was. */
  readonly notWritten: string | null
  readonly beganAt: string | null
  readonly schema: string
  readonly last: LastAnswers
  readonly arrivals: readonly Arrival[]
  /** Of the disk the database lies on; null where the system does not tell. */
  readonly disk: { readonly free: number; readonly database: number } | null
}

async function diskOf(database: string): Promise<HealthFacts['disk']> {
  try {
    const { bavail, bsize } = await statfs(/* turbopackIgnore: true */ dirname(database))
    return { free: bavail * bsize, database: statSync(/* turbopackIgnore: true */ database).size }
  } catch {
    return null
  }
}

/** Looks at everything once; writes one row. */
export async function healthFacts(store: Store, now: string): Promise<HealthFacts> {
  const { reader } = store
  // The name and not the message: that could tell a path.
  const notWritten = await store.probeWrite(now).then(
    () => null,
    (error: Error & { code?: string }) => error.code ?? error.name,
  )
  const read = reader.atOnce(() => ({
    beganAt: reader.beganAt(),
    schema: reader.schema(),
    last: lastAnswers(reader),
    arrivals: reader.arrivals(),
  }))
  return { now, notWritten, ...read, disk: await diskOf(store.path) }
}
