import { DEFAULT_PLAN } from '../../plan/index.ts'
import { RULES_VERSION } from '../../rules/index.ts'
import type { Call } from '../call.ts'
import { keepStanding } from './keepStanding.ts'

// Short transactions, so that a change of day in a large cohort never holds up another person's write.
const AT_A_TIME = 100

/** Evaluates again only those whose answer no longer holds: the day has passed, or rules or plan have another version. Returns how many. */
export async function renewStandings(call: Call): Promise<number> {
  const stale = call.store.reader.staleStandings({ today: call.today, rulesVersion: RULES_VERSION, planVersion: DEFAULT_PLAN.version })
  for (let from = 0; from < stale.length; from += AT_A_TIME) {
    const some = stale.slice(from, from + AT_A_TIME)
    await call.store.record(call, (tx) => {
      for (const patientId of some) keepStanding(tx, patientId, call.today)
      return { value: null, events: [{ action: 'standings-renewed', patients: some.length, because: 'day' }] }
    })
  }
  return stale.length
}
