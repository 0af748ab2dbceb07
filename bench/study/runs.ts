import type { Said } from './watched.ts'

/** Consecutive samples that all said something; positions among the samples, both ends included. */
export interface Run {
  readonly from: number
  readonly to: number
  /** Any sample of it said `confirmed`. */
  readonly confirmed: boolean
}

/** Letters to look for: anything said, or `confirmed`. */
export type Letters = 'ucnm' | 'cn'

/** Runs of consecutive samples that said something. */
export function runsOf(said: Said): Run[] {
  return [...said.matchAll(/[ucnm]+/g)].map(({ 0: run, index }) => ({
    from: index,
    to: index + run.length - 1,
    confirmed: /[cn]/.test(run),
  }))
}

/** What would be said if `confirmed` needed three samples in a row: the sample before had to be confirmed too. */
export function heldByThree(said: Said): Said {
  return [...said].map((letter, at) => (/[cn]/.test(letter) && !/[cn]/.test(said[at - 1] ?? '-') ? 'u' : letter)).join('')
}

/** What would be said if a rise inside noise were never more than unconfirmed. */
export function beyondNoise(said: Said): Said {
  return said.replaceAll('n', 'u')
}

/** The first sample from position `from` on that says one of these letters; null where none does. */
export function firstSaying(said: Said, letters: Letters, from: number): number | null {
  const at = said.slice(from).search(new RegExp(`[${letters}]`))
  return at === -1 ? null : from + at
}
