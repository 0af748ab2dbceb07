import { type Day, daysBetween } from '../time/index.ts'
import type { PhaseSpan, TreatmentLine } from './course.ts'
import { isActive } from './phases.ts'
import type { Thresholds } from './thresholds.ts'

/** How many days before and after the start of a line, and around another day, a baseline is looked for. */
type Reach = Pick<Thresholds, 'baselineBeforeDays' | 'baselineAfterDays' | 'baselineAroundDays'>

/** Where the window of comparison opens, at the start of a line or around a day, and how far from it the baseline may lie. */
export type Opening = { readonly at: 'line-start' | 'around'; readonly on: Day; readonly within: Reach }

/**
 * In active disease the current line opens the window, or without any line the day the phase began; in MGUS and smouldering myeloma the
 * diagnosis does. Null without a recorded phase.
 */
export function openingOf(phase: PhaseSpan | null, line: TreatmentLine | null, diagnosedOn: Day | null, within: Reach): Opening | null {
  if (phase === null) return null
  if (isActive(phase.phase)) return line === null ? { at: 'around', on: phase.since, within } : { at: 'line-start', on: line.start, within }
  return diagnosedOn === null ? null : { at: 'around', on: diagnosedOn, within }
}

function atLineStart(days: readonly Day[], { on: start, within }: Opening): number | null {
  const after = days.findIndex((on) => on > start)
  const before = (after === -1 ? days.length : after) - 1
  const lastBefore = days[before]
  if (lastBefore !== undefined && daysBetween(lastBefore, start) <= within.baselineBeforeDays) return before
  const firstAfter = days[after]
  return firstAfter !== undefined && daysBetween(start, firstAfter) <= within.baselineAfterDays ? after : null
}

function nearest(days: readonly Day[], { on, within }: Opening): number | null {
  let found: number | null = null
  let shortest = within.baselineAroundDays + 1
  days.forEach((candidate, at) => {
    const distance = Math.abs(daysBetween(candidate, on))
    if (distance >= shortest) return
    found = at
    shortest = distance
  })
  return found
}

/**
 * Position of the baseline among the samples (oldest first). At a line: the last on or before its start within the days before it that the clinic
 * chose (60), else the first within the days after (7). Around a day: the nearest within 90 days, the earlier of two as near. Null when there is none.
 */
export function baselineAt(samples: readonly { readonly on: Day }[], opening: Opening | null): number | null {
  if (opening === null) return null
  const days = samples.map((sample) => sample.on)
  return opening.at === 'line-start' ? atLineStart(days, opening) : nearest(days, opening)
}
