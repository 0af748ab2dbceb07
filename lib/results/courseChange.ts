import type { Day } from '../time/index.ts'
import type { Made } from './decision.ts'
import type { CourseEvent, Intent, Phase } from './patient.ts'

/** How a patient with active disease is cared for; outside it nobody is in any of these. */
export const CARES = ['on-treatment', 'maintenance', 'off-treatment'] as const
export type Care = (typeof CARES)[number]

/** A phase, and the day it began. */
export interface PhaseBegun {
  readonly phase: Phase
  readonly on: Day
}

/** A treatment line as it began. */
export interface LineBegun {
  readonly line: number
  readonly began: Day
  /** Drugs by INN, small letters. */
  readonly regimen: readonly string[]
  readonly intent: Intent | null
}

/** What a physician says of the course; each speaks of one thing. */
export type CourseWord =
  | { readonly kind: 'phase-recorded'; readonly phase: Phase; readonly began: Day }
  /** `was` is the phase as it stood. */
  | { readonly kind: 'phase-corrected'; readonly was: PhaseBegun; readonly phase: Phase; readonly began: Day }
  | { readonly kind: 'phase-withdrawn'; readonly was: PhaseBegun }
  | ({ readonly kind: 'line-started' } & LineBegun)
  /** How the line began, over what was said of that before. */
  | ({ readonly kind: 'line-corrected' } & LineBegun)
  | { readonly kind: 'line-ended'; readonly line: number; readonly ended: Day }
  /** It has not ended, whatever was said before. */
  | { readonly kind: 'line-goes-on'; readonly line: number }
  /** There was no such line. */
  | { readonly kind: 'line-withdrawn'; readonly line: number }
  | { readonly kind: 'care-changed'; readonly care: Care; readonly began: Day }
  /** `instead` is what the patients file said when it was changed. */
  | { readonly kind: 'clinician-changed'; readonly clinician: string; readonly instead: string | null }

/** Taking one of these back is a row of its own. */
export type ChangeContent = CourseWord | { readonly kind: 'taken-back'; readonly changeId: number }

/**
 * What a physician changed of the course, as it is kept: never changed or removed. `told` is what intake had told of the same thing by then, so that
 * whatever comes later is known to have come later, and what was replaced stays readable.
 */
export type CourseChange = Made & { readonly told: readonly CourseEvent[] } & ChangeContent
export type CourseChangeKind = CourseChange['kind']
export type CourseChangeOf<K extends CourseChangeKind> = Extract<CourseChange, { kind: K }>

/** A change that says something of the course itself. */
export type SpokenChange = Exclude<CourseChange, { kind: 'taken-back' }>

/** What a change speaks of: one thing of the course, about which the last word holds. */
export function matterOf(word: CourseWord): string {
  if ('line' in word) return `line ${word.line}`
  if (word.kind === 'care-changed') return 'care'
  return word.kind === 'clinician-changed' ? 'clinician' : 'phase'
}

/** What intake tells of that thing, among all it tells of the course. */
export function toldOf(matter: string, events: readonly CourseEvent[]): readonly CourseEvent[] {
  return events.filter((event) => {
    if (event.event === 'diagnosis' || event.event === 'phase') return matter === 'phase'
    return (event.event === 'line-start' || event.event === 'line-end') && matter === `line ${event.line}`
  })
}

/** The changes nobody took back, in the order they were made. */
export function changesInForce(changes: readonly CourseChange[]): readonly SpokenChange[] {
  const taken = new Set(changes.flatMap((change) => (change.kind === 'taken-back' ? [change.changeId] : [])))
  const spoken = changes.filter((change): change is SpokenChange => change.kind !== 'taken-back' && !taken.has(change.id))
  return spoken.toSorted((a, b) => a.id - b.id)
}
