import { GROUP_WORDS, type RuleId, ruleTitle, type Window } from '../../rules/index.ts'
import { markerWords, unitAfter } from '../markerWords.ts'
import type { WouldChange } from './change.ts'
import type { Then } from './question.ts'
import type { ValueEdge } from './valueEdge.ts'
import type { Changes } from './wouldChange.ts'

const LOOK: Readonly<Record<Window, string>> = {
  'same-day': 'look on the same day',
  'within-7-days': 'look within 7 days',
  'within-30-days': 'look within 30 days',
  'next-visit': 'look at the next visit',
  'on-schedule': 'look on schedule',
}

const SIDES: Readonly<Record<ValueEdge['side'], string>> = { 'at-or-above': 'at or above', 'at-or-below': 'at or below' }

const quoted = (rule: RuleId): string => `"${ruleTitle(rule)}"`
const unitOf = ({ unit }: ValueEdge): string => unitAfter(unit.replace('(24.h)', '24 h'))

function beside({ with: others }: ValueEdge): string {
  return others.length === 0 ? '' : `, with ${others.map(({ analyte, value }) => `${markerWords(analyte)} ${value} as last`).join(' and ')},`
}

const value = (which: string, edge: ValueEdge): string =>
  `${which} ${markerWords(edge.analyte)} ${SIDES[edge.side]} ${edge.at}${unitOf(edge)}${beside(edge)}`

function told(otherwise: Then): string {
  if (otherwise.state === null) return 'it would no longer be shown'
  return otherwise.certain ? `it would stay ${otherwise.state}` : `it would be ${otherwise.state} only as possible, not certain`
}

type Valued = Extract<WouldChange, { edge: ValueEdge }>

const VALUED: Readonly<Record<Valued['what'], (change: Valued) => string>> = {
  confirms: ({ rule, edge, gives, otherwise }) =>
    `${value('A second', edge)} confirms ${quoted(rule)}: ${LOOK[gives.window]}; at ${edge.beside}${unitOf(edge)} ${told(otherwise)}: ${LOOK[otherwise.window]}.`,
  'no-longer-shown': ({ rule, edge, gives, otherwise }) =>
    `${value('A next', edge)} no longer shows ${quoted(rule)}: ${LOOK[gives.window]}; at ${edge.beside}${unitOf(edge)} it still would: ${LOOK[otherwise.window]}.`,
  'first-met': ({ rule, edge, gives, otherwise }) =>
    `${value('A next', edge)} is the first to show ${quoted(rule)}${gives.state === 'met' || gives.state === null ? '' : ` (${gives.state})`}: ${LOOK[gives.window]}; at ${edge.beside}${unitOf(edge)} ${otherwise.state === null ? 'it would not' : 'it would be possible, not certain'}: ${LOOK[otherwise.window]}.`,
}

/** One statement of what would change what is said. */
export function changeSays(change: WouldChange): string {
  switch (change.what) {
    case 'done':
      return `The test done on ${change.on}, ${GROUP_WORDS[change.group]}, with every value as last, ends ${quoted(change.rule)}: ${LOOK[change.window]}.`
    case 'held-decided':
      return `Deciding on the ${change.count === 1 ? 'held row' : `${change.count} held rows`} ends ${quoted(change.rule)}; leaving out what ${change.count === 1 ? 'it shows' : 'they show'}, then ${LOOK[change.window]}.`
    default:
      return VALUED[change.what](change)
  }
}

const titles = (rules: readonly RuleId[]): string => rules.map(quoted).join(' and ')

/** Until when today's answer holds if nothing arrives, in one sentence. */
export function holdsSays({ holds: { until, next }, window }: Changes): string {
  if (until === null || next === null) return 'If nothing arrives, no day changes what is said today.'
  const parts = [
    ...(next.begins.length === 0 ? [] : [`${titles(next.begins)} ${next.begins.length === 1 ? 'begins' : 'begin'}`]),
    ...(next.ends.length === 0 ? [] : [`${titles(next.ends)} ${next.ends.length === 1 ? 'ends' : 'end'}`]),
    next.window === window ? `the window stays: ${LOOK[window]}` : `the window changes: ${LOOK[next.window]}`,
  ]
  return `If nothing arrives, today's answer holds until ${until}; on ${next.on} ${parts.join(', and ')}.`
}

/** Of the findings no value or test was found for; null where there is none. */
export function unchangedSays({ unchanged }: Changes): string | null {
  return unchanged.length === 0 ? null : `No next value or test alone was found that ends ${titles(unchanged)}.`
}

/** Of what was not asked, so that the page need not wait; null where all was. */
export function notAskedSays({ notAsked: { rules, analytes } }: Changes): string | null {
  const names = [...rules.map(quoted), ...analytes.map(markerWords)]
  return names.length === 0 ? null : `Not asked for ${names.join(' and ')}: it would take too long for a page.`
}
