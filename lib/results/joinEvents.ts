import { decideEventFiling, type EventVersion, eventIdentity } from './fileCourseEvents.ts'
import type { CourseEvent } from './patient.ts'

/** One stored version of a course event, by the number the database gave it. */
export interface ArrivedEvent {
  readonly id: number
  readonly event: CourseEvent
}

type Version = EventVersion & ArrivedEvent

function byDay(a: ArrivedEvent, b: ArrivedEvent): number {
  return a.event.on < b.event.on ? -1 : a.event.on > b.event.on ? 1 : a.id - b.id
}

/**
 * The course events of several records read as one, by day, as if all had come for one record: the same event told twice is one, and where it is told
 * otherwise the version that came last counts.
 */
export function joinEvents(arrived: readonly ArrivedEvent[]): readonly CourseEvent[] {
  const told = new Map<string, Version[]>()
  for (const { id, event } of arrived.toSorted((a, b) => a.id - b.id)) {
    const identity = eventIdentity('', event)
    const versions = told.get(identity) ?? []
    const { outcome, version } = decideEventFiling(event, versions)
    if (outcome !== 'known') told.set(identity, [...versions, { id, event, version }])
  }
  const counting = [...told.values()].flatMap((versions) => versions.at(-1) ?? [])
  return counting.toSorted(byDay).map(({ event }) => event)
}
