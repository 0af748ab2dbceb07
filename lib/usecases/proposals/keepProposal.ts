import type { Call, Outcome } from '../call.ts'
import { keepStanding } from '../standing/keepStanding.ts'
import { type Judge, refuseWith, type Wish } from './proposal.ts'
import { staleBecause, stampOf } from './stamp.ts'
import { underLock } from './underLock.ts'

/** Keeps a proposal, its entry of the log and the renewed standing together; not where another consequence was shown than the one of now. */
export function keepProposal<T>(call: Call, wish: Wish, judge: Judge<T>): Promise<Outcome<T>> {
  return underLock(call, wish, (tx, { history, revision, plan, assessment }, text) => {
    const proposal = judge(assessment, tx)
    const stamp = stampOf(proposal.content, { revision, planVersion: plan.version, today: call.today })
    const stale = wish.shown === undefined ? null : staleBecause(wish.shown, stamp)
    if (stale !== null) refuseWith(stale)
    const patientId = proposal.record ?? history.patient.id
    const event = proposal.keep(tx, patientId, { at: call.now, on: call.today, by: call.actor.name, text })
    tx.bumpRevision(patientId)
    keepStanding(tx, patientId, call.today)
    return { value: proposal.value, events: [event] }
  })
}
