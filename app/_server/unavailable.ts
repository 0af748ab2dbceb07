import 'server-only'
import type { Outcome } from '../../lib/usecases/index.ts'

// By name: a page and a route are bundled apart, so the class that was thrown may be another copy of the one that is known here.
const DATABASE_FAULTS = ['StoreBusy', 'NotOpened', 'SqliteError', 'ServerFault']

/** Busy, full, read-only or not there: whatever is wrong with the database itself. A fault of ours is none of these and stays an exception. */
export function isDatabaseFault(error: unknown): error is Error {
  return error instanceof Error && DATABASE_FAULTS.includes(error.name)
}

/** What a use case answers; where the database, and with it the log, cannot be written, that as an answer: nothing was shown or changed. */
export async function unlessUnavailable<T>(run: () => Outcome<T> | Promise<Outcome<T>>): Promise<Outcome<T>> {
  try {
    return await run()
  } catch (error) {
    if (!isDatabaseFault(error)) throw error
    return { ok: false, kind: 'unavailable', reason: 'The database cannot be written now, so this could not be entered in the log.' }
  }
}
