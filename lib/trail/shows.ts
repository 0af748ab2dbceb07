import type { TrailAction, TrailEvent } from './event.ts'

/**
 * Whose data an entry tells were shown to somebody, by the kind of entry: a page opened, a list, a file saved, a value beside a held row, records side by
 * side. What only changes or counts is not here: nothing can be changed of a patient before one of these.
 */
const SHOWS: { readonly [A in TrailAction]?: (event: Extract<TrailEvent, { action: A }>) => readonly (string | null)[] } = {
  'list-shown': ({ patients }) => patients,
  'list-exported': ({ patients }) => patients,
  'patient-opened': ({ patientId }) => [patientId],
  'patient-exported': ({ patientId }) => [patientId],
  'pseudonymous-list-shown': ({ patients }) => patients,
  'pseudonymous-list-exported': ({ patients }) => patients,
  'pseudonymous-patient-opened': ({ patientId }) => [patientId],
  'sheet-drafted': ({ patientId }) => [patientId],
  'sheet-opened': ({ patientId }) => [patientId],
  'held-opened': ({ patientId, beside }) => [patientId, ...beside],
  'held-compared': ({ patientId }) => [patientId],
  'consequence-shown': ({ patientId }) => [patientId],
  'records-compared': ({ patientId, fromId }) => [patientId, fromId],
  'merges-shown': ({ patients }) => patients,
  'round-shown': ({ patients }) => patients,
  'plan-tried': ({ patients }) => patients,
  'follow-up-patients-shown': ({ patients }) => patients,
  'pseudonymous-follow-up-patients-shown': ({ patients }) => patients,
}

/** The kinds of entry that tell of patients shown. */
export const SHOWING_ACTIONS = Object.keys(SHOWS) as TrailAction[]

/** Whose data this entry tells were shown, each once. */
export function shownPatients(event: TrailEvent): readonly string[] {
  const shows = SHOWS[event.action] as ((event: TrailEvent) => readonly (string | null)[]) | undefined
  return [...new Set((shows?.(event) ?? []).filter((patientId) => patientId !== null))]
}
