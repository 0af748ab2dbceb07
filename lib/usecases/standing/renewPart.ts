import { setImmediate as othersTurn } from 'node:timers/promises'
import { RULES_VERSION } from '../../rules/index.ts'
import type { StandingRow } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { membersOf, type Part } from '../inParts.ts'
import { planInForce } from '../plan/planInForce.ts'
import { freshStanding, keepWorkedOut } from './keepStanding.ts'
import { staleToday } from './staleToday.ts'

// Short transactions, so that a change of day or plan in a large cohort never holds up another person's write or page for long.
const AT_A_TIME = 25

const BECAUSE = ['rules', 'plan', 'day'] as const
type Because = (typeof BECAUSE)[number]

/** Why a patient is worked out again; null where another process has done it meanwhile. */
function why({ store: { reader }, today }: Call, patientId: string, planVersion: string): Because | null {
  const kept = reader.standing(patientId)
  if (kept === null) return 'day'
  if (kept.rulesVersion !== RULES_VERSION) return 'rules'
  if (kept.planVersion !== planVersion) return 'plan'
  return kept.evaluatedOn === today && kept.historyRevision === reader.patient(patientId)?.revision ? null : 'day'
}

/**
 * Evaluates again those of a part whose answer no longer holds, in this process; returns how many. Between two patients whatever else waits here has its turn, and the
 * write lock is taken only to keep what was worked out.
 */
export async function renewPart(call: Call, part: Part): Promise<number> {
  const { reader } = call.store
  // By their place among all, which is the same whichever process asks and whatever is renewed meanwhile.
  const members = new Set(membersOf(reader.patientIds(), part))
  const stale = staleToday(call).stale.filter((patientId) => members.has(patientId))
  let renewed = 0
  for (let from = 0; from < stale.length; from += AT_A_TIME) {
    const plan = planInForce(reader, call.today)
    const fresh: { readonly row: StandingRow; readonly because: Because }[] = []
    for (const patientId of stale.slice(from, from + AT_A_TIME)) {
      const because = why(call, patientId, plan.version)
      const row = because === null ? null : freshStanding(reader, patientId, plan, call.today)
      if (because !== null && row !== null) fresh.push({ row, because })
      await othersTurn()
    }
    if (fresh.length === 0) continue
    const events = BECAUSE.flatMap((because) => {
      const patients = fresh.filter((one) => one.because === because).length
      return patients === 0 ? [] : [{ action: 'standings-renewed' as const, patients, because }]
    })
    await call.store.record(call, (tx) => {
      const now = tx.patientsOf(fresh.map(({ row }) => row.patientId))
      const workedOut = fresh.map(({ row }) => ({ patientId: row.patientId, before: row, revision: now.get(row.patientId)?.revision ?? null }))
      keepWorkedOut(tx, workedOut, planInForce(tx, call.today), call.today)
      return { value: null, events }
    })
    renewed += fresh.length
  }
  return renewed
}
