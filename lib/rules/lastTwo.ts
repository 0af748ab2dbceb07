import { allHold, type Holds } from '../units/index.ts'
import { type Judgement, stateOf } from './judgement.ts'

/** State of a limit held on each sample by itself: unconfirmed by one sample, confirmed by it and the one before. */
export function lastTwo(holds: readonly Holds[], at: number): Pick<Judgement, 'certainty' | 'state'> | null {
  const current = holds[at] ?? 'no'
  return stateOf(current, at > 0 ? allHold(holds[at - 1] ?? 'no', current) : 'no')
}
