import type { CourseEvent, LineBegun, Phase, PhaseBegun, SpokenChange } from '../results/index.ts'

const PHASE_WORDS: Readonly<Record<Phase, string>> = {
  mgus: 'MGUS',
  smouldering: 'smouldering',
  active: 'active',
  plasmacytoma: 'plasmacytoma',
  amyloidosis: 'amyloidosis',
  'plasma-cell-leukaemia': 'plasma cell leukaemia',
}

const phaseOf = ({ phase, on }: PhaseBegun): string => `${PHASE_WORDS[phase]} from ${on}`

function lineOf({ line, began, regimen, intent }: LineBegun): string {
  const drugs = regimen.length === 0 ? 'drugs not recorded' : regimen.join(' + ')
  return `line ${line} from ${began}, ${drugs}${intent === null ? '' : `, ${intent}`}`
}

/** What a physician said of the course, in one phrase. */
export function courseChangeSays(change: SpokenChange): string {
  switch (change.kind) {
    case 'phase-recorded':
      return `Phase: ${phaseOf({ phase: change.phase, on: change.began })}`
    case 'phase-corrected':
      return `Phase: ${phaseOf({ phase: change.phase, on: change.began })}, in place of ${phaseOf(change.was)}`
    case 'phase-withdrawn':
      return `Phase taken out: ${phaseOf(change.was)}`
    case 'line-started':
      return `Treatment: ${lineOf(change)}`
    case 'line-corrected':
      return `Treatment corrected: ${lineOf(change)}`
    case 'line-ended':
      return `Treatment: line ${change.line} ended on ${change.ended}`
    case 'line-goes-on':
      return `Treatment: line ${change.line} goes on`
    case 'line-withdrawn':
      return `Treatment taken out: line ${change.line}`
    case 'care-changed':
      return `Care: ${change.care.replaceAll('-', ' ')} from ${change.began}`
    case 'clinician-changed':
      return `Clinician: ${change.clinician}${change.instead === null ? '' : `, in place of ${change.instead}`}`
  }
}

/** What intake told of a phase or line, in a few words: "active from 2025-03-01". */
export function toldSays(event: CourseEvent): string {
  if (event.event === 'diagnosis' || event.event === 'phase') return phaseOf(event)
  if (event.event === 'line-start') return lineOf({ ...event, began: event.on })
  return event.event === 'line-end' ? `line ${event.line} ended on ${event.on}` : event.event
}
