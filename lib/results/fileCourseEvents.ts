import { decimalText } from '../units/index.ts'
import type { CourseEvent } from './patient.ts'

/** One stored version of a course event; the highest version counts. */
export interface EventVersion {
  readonly version: number
  readonly event: CourseEvent
}

/** What becomes of a course event; `version` is the new version, or the stored one it repeats. */
export interface EventFiling {
  readonly outcome: 'filed' | 'known' | 'corrected'
  readonly version: number
}

/**
 * The key of a course event over all its versions, fit for a database column: a treatment line by its number, imaging by day and modality, every
 * other event by its day.
 */
export function eventIdentity(patientId: string, event: CourseEvent): string {
  const which = 'line' in event ? [event.line] : event.event === 'imaging' ? [event.on, event.modality] : [event.on]
  return JSON.stringify([patientId, event.event, ...which])
}

// Every exact decimal is written canonically, 7.0 as 7, and the fields in one order.
function eventContent(event: CourseEvent): string {
  const entries = Object.entries(event).sort(([a], [b]) => (a < b ? -1 : 1))
  return JSON.stringify(
    entries.map(([name, value]) => [name, typeof value === 'object' && value !== null && 'toFixed' in value ? decimalText(value) : value]),
  )
}

/**
 * Decides what becomes of a course event, given every stored version of the same identity (`eventIdentity`). The same content as any version is
 * known, so that old files can be sent again; other content is a new version, the old one kept.
 */
export function decideEventFiling(incoming: CourseEvent, versions: readonly EventVersion[]): EventFiling {
  if (versions.length === 0) return { outcome: 'filed', version: 1 }
  const content = eventContent(incoming)
  const same = versions.find(({ event }) => eventContent(event) === content)
  if (same !== undefined) return { outcome: 'known', version: same.version }
  return { outcome: 'corrected', version: Math.max(...versions.map(({ version }) => version)) + 1 }
}
