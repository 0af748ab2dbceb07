import { RULES_VERSION } from '../../rules/index.ts'
import type { Call } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'

interface StaleToday {
  /** Patients, by their numbers. */
  readonly stale: readonly string[]
  readonly planVersion: string
}

/** Whose kept answer does not hold today, by the rules of now and the plan in force. */
export function staleToday({ store: { reader }, today }: Pick<Call, 'store' | 'today'>): StaleToday {
  const { version: planVersion } = planInForce(reader, today)
  return { stale: reader.staleStandings({ today, rulesVersion: RULES_VERSION, planVersion }), planVersion }
}
