import type { Call, Outcome } from '../call.ts'
import { type Deciding, decide, refuse } from './decide.ts'

export interface WithdrawalWish {
  readonly patientId: string
  readonly attributionId: number
  readonly reason: string
  /** The stamp of the consequence that was shown; absent where none was. */
  readonly shown?: string | undefined
}

export function decideWithdrawal({ patientId, attributionId }: Omit<WithdrawalWish, 'reason'>): Deciding<null> {
  return ({ known: { decisions } }, reader) => {
    const before =
      decisions.find((decision) => decision.id === attributionId && decision.kind === 'attribution') ??
      refuse('not-found', `Patient ${patientId} has no attribution with the number ${attributionId}.`)
    if (decisions.some((decision) => decision.kind === 'attribution-withdrawn' && decision.attributionId === attributionId))
      refuse('invalid', `Attribution ${attributionId} was withdrawn already.`)
    return {
      record: reader.recordOfDecision(attributionId) ?? patientId,
      decision: { kind: 'attribution-withdrawn', attributionId },
      before,
      event: (logged) => ({ action: 'attribution-withdrawn', ...logged }),
      value: null,
    }
  }
}

/** Takes a recorded other cause back, with the reason: the finding stands again where its rule puts it. Both stay on record. */
export function withdrawAttribution(call: Call, wish: WithdrawalWish): Promise<Outcome<null>> {
  const { patientId, reason, shown } = wish
  return decide(call, { permission: 'attribution.write', patientId, typed: reason, called: 'The reason', shown }, decideWithdrawal(wish))
}
