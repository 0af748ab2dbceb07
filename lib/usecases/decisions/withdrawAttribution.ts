import type { Call, Outcome } from '../call.ts'
import { decide, refuse } from './decide.ts'

export interface WithdrawalWish {
  readonly patientId: string
  readonly attributionId: number
  readonly reason: string
}

/** Takes a recorded other cause back, with the reason: the finding stands again where its rule puts it. Both stay on record. */
export function withdrawAttribution(call: Call, { patientId, attributionId, reason }: WithdrawalWish): Promise<Outcome<null>> {
  return decide(call, { permission: 'attribution.write', patientId, typed: reason, called: 'The reason' }, ({ known }, tx) => {
    const { decisions } = known
    const before =
      decisions.find((decision) => decision.id === attributionId && decision.kind === 'attribution') ??
      refuse('not-found', `Patient ${patientId} has no attribution with the number ${attributionId}.`)
    if (decisions.some((decision) => decision.kind === 'attribution-withdrawn' && decision.attributionId === attributionId))
      refuse('invalid', `Attribution ${attributionId} was withdrawn already.`)
    return {
      record: tx.recordOfDecision(attributionId) ?? patientId,
      decision: { kind: 'attribution-withdrawn', attributionId },
      before,
      event: (logged) => ({ action: 'attribution-withdrawn', ...logged }),
      value: null,
    }
  })
}
