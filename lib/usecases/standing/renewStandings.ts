import { setImmediate as othersTurn } from 'node:timers/promises'
import { RULES_VERSION } from '../../rules/index.ts'
import type { Call } from '../call.ts'
import { keepStanding } from './keepStanding.ts'
import { staleToday } from './staleToday.ts'

// Short transactions, so that a change of day or plan in a large cohort never holds up another person's write or page for long.
const AT_A_TIME = 25

const BECAUSE = ['rules', 'plan', 'day'] as const
type Because = (typeof BECAUSE)[number]

function why(call: Call, patientId: string, planVersion: string): Because {
  const kept = call.store.reader.standing(patientId)
  if (kept !== null && kept.rulesVersion !== RULES_VERSION) return 'rules'
  return kept !== null && kept.planVersion !== planVersion ? 'plan' : 'day'
}

/** Evaluates again only those whose answer no longer holds: the day has passed, or rules or plan have another version. Returns how many. */
export async function renewStandings(call: Call): Promise<number> {
  const { stale, planVersion } = staleToday(call)
  const reasons = new Map(stale.map((patientId) => [patientId, why(call, patientId, planVersion)]))
  for (const because of BECAUSE) {
    const patientIds = stale.filter((patientId) => reasons.get(patientId) === because)
    for (let from = 0; from < patientIds.length; from += AT_A_TIME) {
      const some = patientIds.slice(from, from + AT_A_TIME)
      await call.store.record(call, (tx) => {
        for (const patientId of some) keepStanding(tx, patientId, call.today)
        return { value: null, events: [{ action: 'standings-renewed', patients: some.length, because }] }
      })
      await othersTurn()
    }
  }
  return stale.length
}
