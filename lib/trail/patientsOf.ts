import type { TrailEvent } from './event.ts'

/** Everybody an event concerns, by number: whom it is about first, then whom it showed. Each once. */
export function patientsOf(event: TrailEvent): readonly string[] {
  const about = 'patientId' in event ? [event.patientId] : []
  const askedFor = 'asked' in event ? [event.asked?.patientId] : []
  const joined = 'fromId' in event ? [event.fromId] : []
  const shown = 'patients' in event && typeof event.patients !== 'number' && typeof event.patients !== 'string' ? event.patients : []
  const beside = 'beside' in event ? event.beside : []
  return [...new Set([...about, ...askedFor, ...joined, ...shown, ...beside])].flatMap((id) => id ?? [])
}
