import type { Store } from '../../store/index.ts'
import type { ProviderRefusal, TrailEvent } from '../../trail/index.ts'
import type { Outcome } from '../call.ts'
import type { SignInFacts } from './signIn.ts'

/** One sentence for every refusal of single sign-on: what was wrong is in the log, not on the page. */
export const NOT_WORKED = 'Signing in with single sign-on did not work. Try again; if it stays so, ask the administrator.'
export const PROVIDER_REFUSED: Outcome<never> = { ok: false, kind: 'not-allowed', reason: NOT_WORKED }

/** The log's entry of a refusal. `identity` is the SHA-256 of issuer and subject, where one was told. */
export function providerFailure(because: ProviderRefusal, identity?: string): TrailEvent {
  return { action: 'sign-in', outcome: 'failure', by: 'provider', because, ...(identity === undefined ? {} : { identity }) }
}

/** Logs a sign-in that failed on its way to the provider or back, before anybody was named. Throws where the log cannot be written. */
export function recordProviderFailure(store: Store, because: ProviderRefusal, { now, requestId, address }: SignInFacts): Promise<Outcome<never>> {
  const actor = { name: '(unknown name)', role: 'none', sessionHash: null, address, requestId } as const
  return store.record({ actor, now: now.toISOString() }, () => ({ value: PROVIDER_REFUSED, events: [providerFailure(because)] }))
}
