import { exclusionsOf } from '../../results/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type Deciding, decide, refuse } from './decide.ts'
import { type ResultWish, resultOfPatient } from './resultOfPatient.ts'

export function decideExclusion(wish: Omit<ResultWish, 'reason'>): Deciding<null> {
  const { resultId } = wish
  return ({ known }, reader) => {
    const { current, result, patientId: record } = resultOfPatient(reader, wish)
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
  }
}

/** Takes one version of one result out as spurious, with the reason: it counts for nothing and stays visible. A later correction counts again. */
export function excludeResult(call: Call, wish: ResultWish): Promise<Outcome<null>> {
  const { patientId, reason, shown } = wish
  return decide(call, { permission: 'exclusion.write', patientId, typed: reason, called: 'The reason', shown }, decideExclusion(wish))
}
