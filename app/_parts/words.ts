import type { Window } from '../../lib/rules/index.ts'

/** How soon a person should look, as the pages say it. */
export const WINDOW_WORDS: Readonly<Record<Window, string>> = {
  'same-day': 'Same day',
  'within-7-days': 'Within 7 days',
  'within-30-days': 'Within 30 days',
  'next-visit': 'Next visit',
  'on-schedule': 'On schedule',
}

/** Names that are written otherwise than their word in the code. */
const WRITTEN: Readonly<Record<string, string>> = {
  mgus: 'MGUS',
  smouldering: 'Smouldering',
  active: 'Active',
  plasmacytoma: 'Plasmacytoma',
  amyloidosis: 'Amyloidosis',
  'plasma-cell-leukaemia': 'Plasma cell leukaemia',
  'on-treatment': 'on treatment',
  'off-treatment': 'off treatment',
  unrecorded: 'Phase not recorded',
  'serum-m-protein': 'serum M-protein',
  'urine-m-protein': 'urine M-protein',
  dflc: 'dFLC',
  'involved-flc': 'involved free light chain',
  'urine-24h': '24-hour urine',
}

/** A word of the code as a reader meets it: `lowest-not-confirmed` is "lowest not confirmed". */
export function words(name: string): string {
  return WRITTEN[name] ?? name.replaceAll('-', ' ')
}

/** "1 patient", "3 patients". */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`
}

/** An instant (UTC, ISO 8601) as a log shows it: `2026-03-02 14:05:09 UTC`. */
export function instantText(instant: string): string {
  return `${instant.slice(0, 10)} ${instant.slice(11, 19)} UTC`
}

/** What was noted of a danger that stays open: "contacted by a nurse on 2026-03-02". */
export function notedSays({ did, by, on }: { readonly did: string | null; readonly by: string; readonly on: string }): string {
  return `${did === null ? 'noted' : words(did)} by ${by} on ${on}`
}
