import { availableParallelism } from 'node:os'
import { askApart, type CallApart } from './apart.ts'
import type { Progress } from './intake/incoming.ts'

/** More processes read the same file no faster. (ours) */
const MOST_PARTS = 8

/** A part of a cohort: every `of`th patient from the `part`th on, counted from 0. */
export interface Part {
  readonly part: number
  readonly of: number
}

/** Everybody. */
export const WHOLE: Part = { part: 0, of: 1 }

/** The members of a part, in their order. */
export function membersOf<T>(all: readonly T[], { part, of }: Part): readonly T[] {
  return of === 1 ? all : all.filter((_, at) => at % of === part)
}

/** Into how many parts work about so many patients is cut: 1 below `helpedFrom`, where starting processes takes longer than they save. */
export function partsFor(patients: number, helpedFrom: number): number {
  return patients < helpedFrom ? 1 : Math.min(availableParallelism(), MOST_PARTS)
}

function sumOf(progress: readonly Progress[]): Progress {
  const sum = (of: 'done' | 'of') => progress.reduce((total, one) => total + one[of], 0)
  return { step: progress[0]?.step ?? '', done: sum('done'), of: sum('of') }
}

/** Asks a script of `lib/cli` once for each part, each in a process of its own, and answers in their order. Rejects where one was not done. */
export function askInParts<T>(
  script: string,
  count: number,
  requestOf: (part: Part) => CallApart,
  endedEarly: string,
  onProgress?: (progress: Progress) => void,
): Promise<readonly T[]> {
  const told: Progress[] = []
  const asked = Array.from({ length: count }, async (_, part) => {
    const outcome = await askApart<T>(script, requestOf({ part, of: count }), endedEarly, (progress) => {
      told[part] = progress
      onProgress?.(sumOf(told.filter((one) => one !== undefined)))
    })
    if (!outcome.ok) throw new Error(outcome.reason)
    return outcome.value
  })
  return Promise.all(asked)
}
