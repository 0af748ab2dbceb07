import { existsSync, statSync } from 'node:fs'
import { statfs } from 'node:fs/promises'
import { dirname } from 'node:path'
import { type Arrival, isOnServer, type Store } from '../../store/index.ts'
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
  /** Of the disk the database lies on, or files arrive on where it lies on a server (then without its size); null where the system does not tell. */
  readonly disk: { readonly free: number; readonly database: number } | null
  /** The database lies on a server, which is backed up and watched where it runs. */
  readonly onServer: boolean
}

/** The folder, or the nearest one above it that is there: nothing may have arrived yet. */
function nearest(folder: string): string {
  return existsSync(/* turbopackIgnore: true */ folder) || dirname(folder) === folder ? folder : nearest(dirname(folder))
}

async function diskOf(database: string, onServer: boolean): Promise<HealthFacts['disk']> {
  try {
    const { bavail, bsize } = await statfs(/* turbopackIgnore: true */ onServer ? nearest(dirname(database)) : dirname(database))
    return { free: bavail * bsize, database: onServer ? 0 : statSync(/* turbopackIgnore: true */ database).size }
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
  const onServer = isOnServer(store.url)
  return { now, notWritten, ...read, onServer, disk: await diskOf(store.path, onServer) }
}
