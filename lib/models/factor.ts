import type { Holds } from '../units/index.ts'

/** One factor of a model: whether it holds, null where its input is not known, and the name of that input. */
export interface Factor {
  readonly input: string
  readonly holds: Holds | null
}

/** How many factors are certainly present, how many may be, and which inputs leave it open. */
export interface Counted {
  readonly present: number
  readonly atMost: number
  readonly missing: readonly string[]
}

/** What an open factor says of its input. */
export function missingInput({ input, holds }: Factor): readonly string[] {
  if (holds === null) return [`${input} not known`]
  return holds === 'possible' ? [`${input} known only as a limit`] : []
}

export function countFactors(factors: readonly Factor[]): Counted {
  const present = factors.filter(({ holds }) => holds === 'certain').length
  const missing = factors.flatMap(missingInput)
  return { present, atMost: present + missing.length, missing }
}
