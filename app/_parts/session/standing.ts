/** Until when a session holds, on this machine's clock (milliseconds since 1970): without a further sign of life, and at the longest. */
export interface Ends {
  readonly idleAt: number
  readonly longestAt: number
}

/** How a session stands: open, about to end for one of two reasons, or ended. */
export type Standing =
  | { readonly kind: 'open' }
  | { readonly kind: 'warned'; readonly why: 'idle' | 'longest'; readonly endsAt: number }
  | { readonly kind: 'ended' }

/** Long enough to come back to the keyboard: a person who cannot hurry has two minutes for one key (WCAG 2.2, 2.2.1 asks for 20 seconds). */
export const WARN_IDLE_MS = 2 * 60_000
/** This end cannot be put off, so there is time to finish and send what is being typed. Ours. */
export const WARN_LONGEST_MS = 10 * 60_000

/** How the session stands at `nowMs`. What ends sooner is what is warned of. */
export function standingAt({ idleAt, longestAt }: Ends, nowMs: number): Standing {
  if (nowMs >= idleAt || nowMs >= longestAt) return { kind: 'ended' }
  const idle = { warns: nowMs >= idleAt - WARN_IDLE_MS, standing: { kind: 'warned', why: 'idle', endsAt: idleAt } as const }
  const longest = { warns: nowMs >= longestAt - WARN_LONGEST_MS, standing: { kind: 'warned', why: 'longest', endsAt: longestAt } as const }
  const [first] = (idleAt < longestAt ? [idle, longest] : [longest, idle]).filter(({ warns }) => warns)
  return first?.standing ?? { kind: 'open' }
}

/** Whether two standings look alike; a moment that moved by less than a second is the same one. */
export function isSameStanding(one: Standing, other: Standing): boolean {
  if (one.kind !== 'warned' || other.kind !== 'warned') return one.kind === other.kind
  return one.why === other.why && Math.abs(one.endsAt - other.endsAt) < 1000
}
