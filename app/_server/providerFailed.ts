import 'server-only'
import type { ProviderRefusal } from '../../lib/trail/index.ts'
import { recordProviderFailure } from '../../lib/usecases/index.ts'
import { requestFacts } from './request.ts'
import { store } from './store.ts'
import { unlessUnavailable } from './unavailable.ts'

export { NOT_WORKED } from '../../lib/usecases/index.ts'

/** Logs why. Where that cannot be written nothing else was either: nobody is signed in. */
export async function logFailure(because: ProviderRefusal): Promise<void> {
  const facts = { now: new Date(), ...(await requestFacts()) }
  await unlessUnavailable(async () => recordProviderFailure(await store(), because, facts))
}

/** The Set-Cookie lines that take these cookies away. */
export function forgotten(names: readonly string[]): string[] {
  return names.map((name) => `${name}=; Path=/; Max-Age=0; HttpOnly; Secure; SameSite=Lax`)
}
