import { exclusionsOf } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { decide, refuse } from './decide.ts'
import { type ResultWish, resultOfPatient } from './resultOfPatient.ts'

/** Puts an excluded result version back, with the reason: it counts again, unless a newer version has replaced it. Both stay on record. */
export function restoreResult(call: Call, wish: ResultWish): Promise<Outcome<null>> {
  const { patientId, resultId, reason } = wish
  return decide(call, { permission: 'exclusion.write', patientId, typed: reason, called: 'The reason' }, ({ known }, tx) => {
    const { result, patientId: record } = resultOfPatient(tx, wish)
    const before = exclusionsOf(known.decisions).get(resultId) ?? refuse('invalid', `Result ${resultId} is not excluded.`)
    return {
      record,
      decision: { kind: 'restoration', resultId },
      before,
      event: (logged) => ({ action: 'result-restored', resultId, version: result.version, ...logged }),
      value: null,
    }
  })
}
