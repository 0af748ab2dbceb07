import { setImmediate as othersTurn } from 'node:timers/promises'
import { RULES_VERSION } from '../../rules/index.ts'
import type { StandingRow, Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { membersOf, type Part } from '../inParts.ts'
import { planInForce } from '../plan/planInForce.ts'
import { freshStanding, keepStanding } from './keepStanding.ts'
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

/** Keeps what was worked out without the write lock; whoever has changed since, or where another plan holds now, is worked out again under it. */
function keepFresh(tx: Tx, fresh: readonly StandingRow[], { today }: Call): void {
  const { version } = planInForce(tx, today)
  for (const row of fresh) {
    const holds = row.planVersion === version && tx.patient(row.patientId)?.revision === row.historyRevision
    if (holds) tx.saveStanding(row)
    else keepStanding(tx, row.patientId, today)
  }
}

/**
 * Evaluates again those of a part whose answer no longer holds, in this process; returns how many. Between two patients whatever else waits here has its turn, and the
 * write lock is taken only to keep what was worked out.
 */
export async function renewPart(call: Call, part: Part): Promise<number> {
  const { reader } = call.store
  const { stale: everybody, planVersion } = staleToday(call)
  // By their place among all, which is the same whichever process asks and whatever is renewed meanwhile.
  const members = new Set(membersOf(reader.patientIds(), part))
  const stale = everybody.filter((patientId) => members.has(patientId))
  const reasons = new Map(stale.map((patientId) => [patientId, why(call, patientId, planVersion)]))
  for (const because of BECAUSE) {
    const patientIds = stale.filter((patientId) => reasons.get(patientId) === because)
    for (let from = 0; from < patientIds.length; from += AT_A_TIME) {
      const plan = planInForce(reader, call.today)
      const fresh: StandingRow[] = []
      for (const patientId of patientIds.slice(from, from + AT_A_TIME)) {
        const row = freshStanding(reader, patientId, plan, call.today)
        if (row !== null) fresh.push(row)
        await othersTurn()
      }
      await call.store.record(call, (tx) => {
        keepFresh(tx, fresh, call)
        return { value: null, events: [{ action: 'standings-renewed', patients: fresh.length, because }] }
      })
    }
  }
  return stale.length
}
