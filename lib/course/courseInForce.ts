import { type CourseChangeOf, type CourseEvent, type CourseEventOf, changesInForce, type History, type SpokenChange } from '../results/index.ts'
import { compareDays } from '../time/index.ts'
import { linesInForce } from './linesInForce.ts'
import type { Overruled } from './overruled.ts'
import { diagnosesInForce, type PhaseFact, phasesInForce } from './phasesInForce.ts'
import { inOrder } from './sameDayOrder.ts'

/** The course as it counts: what intake told and what physicians changed of it, read together. Lists are by day. */
export interface CourseInForce {
  readonly diagnoses: readonly CourseEventOf<'diagnosis'>[]
  readonly phases: readonly PhaseFact[]
  readonly starts: readonly CourseEventOf<'line-start'>[]
  readonly ends: readonly CourseEventOf<'line-end'>[]
  /** Cares a physician named, by the day each began. */
  readonly cares: readonly CourseChangeOf<'care-changed'>[]
  readonly clinician: string | null
  readonly overruled: readonly Overruled[]
}

const isOf =
  <E extends CourseEvent['event']>(...kinds: readonly E[]) =>
  (event: CourseEvent): event is CourseEventOf<E> =>
    (kinds as readonly string[]).includes(event.event)

const startsWith =
  <P extends 'phase' | 'line'>(prefix: P) =>
  (change: SpokenChange): change is Extract<SpokenChange, { kind: `${P}-${string}` }> =>
    change.kind.startsWith(`${prefix}-`)

const isCare = (change: SpokenChange): change is CourseChangeOf<'care-changed'> => change.kind === 'care-changed'
const isClinician = (change: SpokenChange): change is CourseChangeOf<'clinician-changed'> => change.kind === 'clinician-changed'

/**
 * The one place where intake's course events and people's changes become one course. Pure; the order in which intake's events came changes nothing. What a
 * physician said of a thing holds until somebody changes it again or takes it back; what intake tells otherwise later is kept in `overruled`.
 */
export function courseInForce({ patient, events, courseChanges }: Pick<History, 'patient' | 'events' | 'courseChanges'>): CourseInForce {
  const words = changesInForce(courseChanges)
  const diagnoses = inOrder(events.filter(isOf('diagnosis')))
  const told = inOrder(events.filter(isOf('diagnosis', 'phase')))
  const { facts, overruled } = phasesInForce(told, words.filter(startsWith('phase')))
  const lines = linesInForce(inOrder(events.filter(isOf('line-start', 'line-end'))), words.filter(startsWith('line')))
  return {
    diagnoses: inOrder(diagnosesInForce(diagnoses, facts)),
    phases: facts.toSorted((a, b) => compareDays(a.on, b.on)),
    starts: inOrder(lines.starts),
    ends: inOrder(lines.ends),
    cares: words.filter(isCare).toSorted((a, b) => compareDays(a.began, b.began) || a.id - b.id),
    clinician: words.findLast(isClinician)?.clinician ?? patient.clinician,
    overruled: [...overruled, ...lines.overruled],
  }
}
