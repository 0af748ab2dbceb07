import { exclusionsOf } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { decide, refuse } from './decide.ts'
import { type ResultWish, resultOfPatient } from './resultOfPatient.ts'

/** Takes one version of one result out as spurious, with the reason: it counts for nothing and stays visible. A later correction counts again. */
export function excludeResult(call: Call, wish: ResultWish): Promise<Outcome<null>> {
  const { patientId, resultId, reason } = wish
  return decide(call, { permission: 'exclusion.write', patientId, typed: reason, called: 'The reason' }, ({ known }, tx) => {
    const { current, result, patientId: record } = resultOfPatient(tx, wish)
    if (exclusionsOf(known.decisions).has(resultId)) refuse('invalid', `Result ${resultId} is excluded already.`)
    if (!current || !known.results.some(({ id }) => id === resultId))
      refuse('invalid', `Result ${resultId} was replaced by a newer version: look again.`)
    return {
      record,
      decision: { kind: 'exclusion', resultId },
      before: null,
      event: (logged) => ({ action: 'result-excluded', resultId, version: result.version, ...logged }),
      value: null,
    }
  })
}
