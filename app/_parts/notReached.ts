import type { Outcome } from '../../lib/usecases/index.ts'

/** Was there a network before something was sent? Asked before sending, because afterwards nobody can tell. */
export function isOffline(): boolean {
  return typeof navigator !== 'undefined' && !navigator.onLine
}

/** What is said where an action brought no answer. Whether it was done nobody knows, unless there was no network to send it over. */
export function notReached(wasOffline: boolean): Extract<Outcome<never>, { ok: false }> {
  return {
    ok: false,
    kind: 'unavailable',
    reason: wasOffline
      ? 'Not sent: this device has no network. What you typed stands here; send it again once the network is back.'
      : 'Lowmark does not answer, so this was probably not kept. What you typed stands here: look in another tab whether it was, or send it again in a minute.',
  }
}
