import type { FactorPolicy } from '../../access/index.ts'

/** Whether LOWMARK_SECOND_FACTOR is a word that is known. */
export function isPolicyKnown(): boolean {
  return ['optional', 'required'].includes(process.env.LOWMARK_SECOND_FACTOR ?? 'optional')
}

/** Whether a password alone is enough: `optional` unless LOWMARK_SECOND_FACTOR says otherwise. A word nobody knows requires the second factor. */
export function factorPolicy(): FactorPolicy {
  return (process.env.LOWMARK_SECOND_FACTOR ?? 'optional') === 'optional' ? 'optional' : 'required'
}
