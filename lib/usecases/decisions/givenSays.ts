import type { DecisionOf } from '../../results/index.ts'
import { answerWords, type Given } from '../../review/index.ts'

const when = ({ on, at }: Pick<Given, 'on' | 'at'>): string => `on ${on} at ${at.slice(11, 16)} UTC`

/** What somebody did about a finding, in one sentence without its full stop: who, when, what, and until when it is answered. */
export function givenSays(given: Given): string {
  const note = given.text === '' ? '' : `: "${given.text}"`
  if (given.kind === 'handover') return `${given.by} handed it to a physician ${when(given)}${note}`
  const did = given.did === undefined ? '' : ` (${answerWords(given.did)})`
  return `${given.by} answered it ${when(given)}${did}, until ${given.bringBackOn}${note}`
}

/** The same of an answer that was taken back. */
export function takenBackSays(withdrawn: DecisionOf<'answer-withdrawn'>): string {
  return `${withdrawn.by} took the answer back ${when(withdrawn)}`
}
