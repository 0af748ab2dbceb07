import { type Course, isActive, MARKERS } from '../../course/index.ts'
import type { Phase } from '../../results/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import { bandsOf } from '../bands.ts'
import type { CoursePlan, CourseSpan } from './coursePlan.ts'

const PHASE: Readonly<Record<Phase, string>> = {
  mgus: 'MGUS',
  smouldering: 'smouldering',
  active: 'active',
  plasmacytoma: 'plasmacytoma',
  amyloidosis: 'amyloidosis',
  'plasma-cell-leukaemia': 'plasma cell leukaemia',
}

/** Treatment lines with regimen and intent, first line first. */
export function lineSpans(course: Course, from: Day): readonly CourseSpan[] {
  return bandsOf(course).map((band, at) => ({
    from: daysBetween(from, band.from),
    to: daysBetween(from, band.to),
    short: `Line ${course.lines[at]?.number ?? at + 1}`,
    label: band.label,
  }))
}

/** Phases, each up to the day the next began. */
export function phaseSpans({ phases, today }: Course, from: Day): readonly CourseSpan[] {
  return phases.map(({ phase, since }, at) => ({
    from: Math.max(daysBetween(from, since), 0),
    to: daysBetween(from, phases[at + 1]?.since ?? today),
    short: PHASE[phase],
    label: PHASE[phase],
  }))
}

/** Where the window opens that current values are held against: at its earliest baseline, or where the line began if that is earlier. */
export function openWindow(course: Course, from: Day): CoursePlan['window'] {
  const { phase, line } = course
  const baselines = MARKERS.flatMap((name) => course.markers[name].baseline?.on ?? [])
  const ofLine = phase !== null && isActive(phase.phase) ? line : null
  const [first] = [...baselines, ...(ofLine === null ? [] : [ofLine.start])].toSorted()
  if (first === undefined) return null
  return { day: Math.max(daysBetween(from, first), 0), label: ofLine === null ? 'since the baseline' : `line ${ofLine.number}` }
}
