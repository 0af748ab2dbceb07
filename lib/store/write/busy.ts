import { setTimeout as pause } from 'node:timers/promises'

/** Another program held the write lock all the time; nothing was changed. */
export class StoreBusy extends Error {
  override readonly name = 'StoreBusy'
}

// PostgreSQL's word for it (SQLSTATE, "PostgreSQL Error Codes").
const LOCK_NOT_AVAILABLE = '55P03'

export function isBusy(error: unknown): boolean {
  return (
    error instanceof Error &&
    'code' in error &&
    typeof error.code === 'string' &&
    (error.code.startsWith('SQLITE_BUSY') || error.code === LOCK_NOT_AVAILABLE)
  )
}

const FIRST_PAUSE_MS = 1
// Shorter than the breath a large file takes between two parts, so that nobody misses it.
const LONGEST_PAUSE_MS = 5

/**
 * Tries `attempt` until the engine no longer answers that another program writes, at most `patienceMs`, and leaves the thread free in between:
 * SQLite's own waiting would hold up every page. Throws StoreBusy when patience ends, and any other error at once.
 */
export async function untilFree<T>(attempt: () => T, patienceMs: number): Promise<T> {
  const began = performance.now()
  for (let wait = FIRST_PAUSE_MS; ; wait = Math.min(wait * 2, LONGEST_PAUSE_MS)) {
    try {
      return attempt()
    } catch (error) {
      if (!isBusy(error)) throw error
      if (performance.now() - began >= patienceMs) {
        throw new StoreBusy(
          `Another program has been writing to the database for ${Math.round(patienceMs / 1000)} seconds. Nothing was changed; try again when it has finished.`,
        )
      }
    }
    // Uneven pauses, so that two waiting programs do not knock in step.
    await pause(wait * (0.5 + Math.random() / 2))
  }
}
