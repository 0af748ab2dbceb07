import { DEFAULT_PLAN } from '../../plan/index.ts'
import { RULES_VERSION } from '../../rules/index.ts'
import type { Call } from '../call.ts'
import { keepStanding } from './keepStanding.ts'

// Short transactions, so that a change of day in a large cohort never holds up another person's write.
const AT_A_TIME = 100

const BECAUSE = ['rules', 'plan', 'day'] as const
type Because = (typeof BECAUSE)[number]

function why(call: Call, patientId: string): Because {
  const kept = call.store.reader.standing(patientId)
  if (kept !== null && kept.rulesVersion !== RULES_VERSION) return 'rules'
  return kept !== null && kept.planVersion !== DEFAULT_PLAN.version ? 'plan' : 'day'
}

/** Evaluates again only those whose answer no longer holds: the day has passed, or rules or plan have another version. Returns how many. */
export async function renewStandings(call: Call): Promise<number> {
  const stale = call.store.reader.staleStandings({ today: call.today, rulesVersion: RULES_VERSION, planVersion: DEFAULT_PLAN.version })
  const reasons = new Map(stale.map((patientId) => [patientId, why(call, patientId)]))
  for (const because of BECAUSE) {
    const patientIds = stale.filter((patientId) => reasons.get(patientId) === because)
    for (let from = 0; from < patientIds.length; from += AT_A_TIME) {
      const some = patientIds.slice(from, from + AT_A_TIME)
      await call.store.record(call, (tx) => {
        for (const patientId of some) keepStanding(tx, patientId, call.today)
        return { value: null, events: [{ action: 'standings-renewed', patients: some.length, because }] }
      })
    }
  }
  return stale.length
}
