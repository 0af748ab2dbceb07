import { DEFAULT_THRESHOLDS, type Thresholds } from '../course/index.ts'

/** How far a number can be relied on: a named publication, memory until someone verifies it, what clinics usually do, or a choice of this project. */
export type Mark = 'published' | 'from memory' | 'common practice' | 'ours'

/** One number of a rule or a model in words, with its mark. */
export interface MarkedNumber {
  readonly says: string
  readonly mark: Mark
  /** The publication; null where the mark names none. */
  readonly source: string | null
  /** The choices of the clinic behind it; empty where none is. */
  readonly choices: readonly (keyof Thresholds)[]
}

export function publishedIn(source: string, says: string): MarkedNumber {
  return { says, mark: 'published', source, choices: [] }
}

export function fromMemory(says: string): MarkedNumber {
  return { says, mark: 'from memory', source: null, choices: [] }
}

export function practice(says: string): MarkedNumber {
  return { says, mark: 'common practice', source: null, choices: [] }
}

export function ours(says: string, ...choices: (keyof Thresholds)[]): MarkedNumber {
  return { says, mark: 'ours', source: null, choices }
}

/** The mark as printed behind the number: "Published: Greipp 2005 ...", "(from memory)". */
export function markText({ mark, source }: MarkedNumber): string {
  return source === null ? `(${mark})` : `Published: ${source}.`
}

/** What the clinic has chosen in place of a number of ours: "45 instead of 60"; empty where it left them all as they are. */
export function chosenInstead({ choices }: MarkedNumber, thresholds: Thresholds): readonly string[] {
  return choices
    .filter((name) => thresholds[name] !== DEFAULT_THRESHOLDS[name])
    .map((name) => `${thresholds[name]} instead of ${DEFAULT_THRESHOLDS[name]}`)
}
