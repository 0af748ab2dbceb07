import { exclusionsOf } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Deciding, decide, refuse } from './decide.ts'
import { type ResultWish, resultOfPatient } from './resultOfPatient.ts'

export function decideRestoration(wish: Omit<ResultWish, 'reason'>): Deciding<null> {
  const { resultId } = wish
  return ({ known }, reader) => {
    const { result, patientId: record } = resultOfPatient(reader, wish)
    const before = exclusionsOf(known.decisions).get(resultId) ?? refuse('invalid', `Result ${resultId} is not excluded.`)
    return {
      record,
      decision: { kind: 'restoration', resultId },
      before,
      event: (logged) => ({ action: 'result-restored', resultId, version: result.version, ...logged }),
      value: null,
    }
  }
}

/** Puts an excluded result version back, with the reason: it counts again, unless a newer version has replaced it. Both stay on record. */
export function restoreResult(call: Call, wish: ResultWish): Promise<Outcome<null>> {
  const { patientId, reason, shown } = wish
  return decide(call, { permission: 'exclusion.write', patientId, typed: reason, called: 'The reason', shown }, decideRestoration(wish))
}
