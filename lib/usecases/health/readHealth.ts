import type { Store } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { type Health, judge } from './checks.ts'
import { healthFacts } from './facts.ts'

/** What runs and what does not, for a program that watches: whoever lets it see more than the status has asked for its token. */
export async function healthOf(store: Store, now: string): Promise<Health> {
  return judge(await healthFacts(store, now))
}

/** What runs and what does not. It tells no patient, so reading it is no entry of the log; being refused it is one. */
export async function readHealth(call: Call): Promise<Outcome<Health>> {
  const refused = await refusedUnlessMay(call, 'health.read', 'health')
  return refused ?? { ok: true, value: await healthOf(call.store, call.now) }
}
