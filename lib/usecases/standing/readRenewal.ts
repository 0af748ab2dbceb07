import { RULES_VERSION } from '../../rules/index.ts'
import type { Call, Outcome } from '../call.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** How far the answers of today are: of so many patients, how many are still to be worked out before a list of them can be shown. */
export interface Renewal {
  readonly waiting: number
  readonly of: number
}

/** Two numbers of the whole clinic, for whoever waits for a page meanwhile. Works nothing out, and tells of nobody. */
export async function readRenewal(call: Call): Promise<Outcome<Renewal>> {
  const refused = await refusedUnlessMay(call, 'plan.read', 'answers of today')
  if (refused !== null) return refused
  const { reader } = call.store
  const { version: planVersion } = planInForce(reader, call.today)
  const waiting = reader.staleStandings({ today: call.today, rulesVersion: RULES_VERSION, planVersion }).length
  return { ok: true, value: { waiting, of: reader.patientIds().length } }
}
