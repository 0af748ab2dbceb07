import { type Day, daysBetween } from '../time/index.ts'
import type { PhaseSpan, TreatmentLine } from './course.ts'
import { isActive } from './phases.ts'

/** Days before and after the start of a line, and around a diagnosis, within which a baseline is looked for (our choice, clinical.md 2). */
const BEFORE_LINE = 60
const AFTER_LINE = 7
const AROUND_DIAGNOSIS = 90

/** Where the window of comparison opens: at the start of a line, or around a day. */
export type Opening = { readonly at: 'line-start' | 'around'; readonly on: Day }

/**
 * In active disease the current line opens the window, or without any line the day the phase began; in MGUS and smouldering myeloma the
 * diagnosis does. Null without a recorded phase.
 */
export function openingOf(phase: PhaseSpan | null, line: TreatmentLine | null, diagnosedOn: Day | null): Opening | null {
  if (phase === null) return null
  if (isActive(phase.phase)) return line === null ? { at: 'around', on: phase.since } : { at: 'line-start', on: line.start }
  return diagnosedOn === null ? null : { at: 'around', on: diagnosedOn }
}

function atLineStart(days: readonly Day[], start: Day): number | null {
  const after = days.findIndex((on) => on > start)
  const before = (after === -1 ? days.length : after) - 1
  const lastBefore = days[before]
  if (lastBefore !== undefined && daysBetween(lastBefore, start) <= BEFORE_LINE) return before
  const firstAfter = days[after]
  return firstAfter !== undefined && daysBetween(start, firstAfter) <= AFTER_LINE ? after : null
}

function nearest(days: readonly Day[], on: Day): number | null {
  let found: number | null = null
  let shortest = AROUND_DIAGNOSIS + 1
  days.forEach((candidate, at) => {
    const distance = Math.abs(daysBetween(candidate, on))
    if (distance >= shortest) return
    found = at
    shortest = distance
  })
  return found
}

/**
 * Position of the baseline among the samples (oldest first). At a line: the last on or before its start and at most 60 days before it, else the
 * first within 7 days after. Around a day: the nearest within 90 days, the earlier of two as near. Null when there is none.
 */
export function baselineAt(samples: readonly { readonly on: Day }[], opening: Opening | null): number | null {
  if (opening === null) return null
  const days = samples.map((sample) => sample.on)
  return opening.at === 'line-start' ? atLineStart(days, opening.on) : nearest(days, opening.on)
}
