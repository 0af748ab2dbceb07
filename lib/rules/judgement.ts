import type { Holds } from '../units/index.ts'
import type { Caution, Evidence, Finding, FindingState, Window } from './finding.ts'

/** What a finding says beyond which samples show it. Made only for the samples that are reported. */
export interface Shown {
  readonly window: Window
  readonly cautions: readonly Caution[]
  readonly evidence: readonly Evidence[]
  readonly facts: Readonly<Record<string, string>>
  readonly excess: number
}

/** That a sample shows something, how surely, and in which state. */
export interface Judgement {
  readonly certainty: Finding['certainty']
  readonly state: FindingState
  readonly shown: () => Shown
}

/** Which of two states to report: the surer one, and the confirmed one when both are equally sure. Null when neither holds. */
export function stateOf(unconfirmed: Holds, confirmed: Holds): Pick<Judgement, 'certainty' | 'state'> | null {
  if (confirmed === 'certain') return { certainty: 'certain', state: 'confirmed' }
  if (unconfirmed === 'certain') return { certainty: 'certain', state: 'unconfirmed' }
  if (confirmed === 'possible') return { certainty: 'possible', state: 'confirmed' }
  return unconfirmed === 'possible' ? { certainty: 'possible', state: 'unconfirmed' } : null
}
