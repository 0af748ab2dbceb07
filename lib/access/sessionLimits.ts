const MINUTE_MS = 60_000

/** A session ends after this long without a sign of life. */
export const IDLE_MS = 15 * MINUTE_MS
/** A session ends this long after sign-in, whatever happens in it. */
export const LONGEST_MS = 12 * 60 * MINUTE_MS
/** A sign of life is written down at most this often; so a session may end up to a minute early, never late. */
export const TOUCH_MS = MINUTE_MS

/**
 * A clock set back by more than this makes what was promised by it void instead of longer: sessions end, waits and codes lapse. Small corrections of a
 * clock that is kept right stay below it. (ours)
 */
export const CLOCK_STEP_MS = 5 * MINUTE_MS

/** Why a session no longer holds at `nowMs`; null while it does. One seen later than now ended too: the clock was
 * set back, and nobody can say how long ago that was. All in milliseconds since 1970 UTC. */
export function sessionOver(createdMs: number, lastSeenMs: number, nowMs: number): 'idle' | 'too-long' | null {
  if (nowMs - createdMs >= LONGEST_MS || lastSeenMs - nowMs > CLOCK_STEP_MS) return 'too-long'
  return nowMs - lastSeenMs >= IDLE_MS ? 'idle' : null
}

/** How long a session holds from `nowMs` on, in milliseconds: without a further sign of life, and at the longest. Neither is more than its limit. */
export function sessionLeft(createdMs: number, lastSeenMs: number, nowMs: number): { readonly idleMs: number; readonly longestMs: number } {
  return { idleMs: Math.min(lastSeenMs + IDLE_MS - nowMs, IDLE_MS), longestMs: Math.min(createdMs + LONGEST_MS - nowMs, LONGEST_MS) }
}

/** The first moment a session seen last at `lastSeenMs` no longer holds, whether or not anybody asks then. Milliseconds since 1970 UTC. */
export function sessionEndsAt(createdMs: number, lastSeenMs: number): number {
  return Math.min(createdMs + LONGEST_MS, lastSeenMs + IDLE_MS)
}
