import type { Care, Phase } from '../../results/index.ts'
import { GROUP_WORDS, ruleTitle, type Window } from '../../rules/index.ts'
import { markerWords, unitAfter } from '../markerWords.ts'
import type { LeadingNow, ToCriterion } from './leadingNow.ts'
import type { StandsFacts } from './standsFacts.ts'

const PHASES: Readonly<Record<Phase, string>> = {
  mgus: 'MGUS',
  smouldering: 'Smouldering myeloma',
  active: 'Active myeloma',
  plasmacytoma: 'Plasmacytoma',
  amyloidosis: 'Amyloidosis',
  'plasma-cell-leukaemia': 'Plasma cell leukaemia',
}
const CARES: Readonly<Record<Care, string>> = { 'on-treatment': 'on treatment', maintenance: 'on maintenance', 'off-treatment': 'off treatment' }
const LOOK: Readonly<Record<Window, string>> = {
  'same-day': 'look on the same day',
  'within-7-days': 'look within 7 days',
  'within-30-days': 'look within 30 days',
  'next-visit': 'look at the next visit',
  'on-schedule': 'look on schedule',
}
const LEVELS: Readonly<Record<ToCriterion['is'], string>> = {
  'confirmed-progression': 'the level that confirms progression',
  smouldering: 'the level of smouldering myeloma',
  'myeloma-defining': 'the level of a myeloma-defining event',
}

const counted = (count: number, thing: string): string => `${count} ${thing}${count === 1 ? '' : 's'}`

function phaseSays({ phase, care, line }: StandsFacts): string {
  if (phase === null) return 'No phase of the disease is recorded'
  const parts = [`${PHASES[phase.phase]} since ${phase.since}`]
  if (care !== null && line === null) parts.push('no treatment line recorded')
  if (care !== null && line !== null)
    parts.push(
      `${CARES[care]}${line.end === null ? ` in line ${line.number} since ${line.start}` : ` since line ${line.number} ended on ${line.end}`}`,
    )
  return parts.join(', ')
}

function responseSays({ response, whyNoResponse, care }: StandsFacts): string | null {
  if (care === null) return null
  if (response === null) return `response cannot be told${whyNoResponse === null ? '' : ` (${whyNoResponse})`}`
  const { category, state, provisional, since } = response
  return `${[category, state, provisional ? 'provisional' : null].filter((part) => part !== null).join(', ')}${since === null ? '' : `, since ${since}`}`
}

const ago = (days: number): string => (days === 0 ? 'today' : `${counted(days, 'day')} ago`)

function againstLowest({ reference, change, unit }: LeadingNow): string {
  if (reference === null) return 'with no baseline to hold it against'
  const held = `its ${reference.isBaseline ? 'baseline' : 'lowest confirmed'} ${reference.value} of ${reference.on}`
  if (change === null) return `against ${held}, where a value known only as a limit leaves the change open`
  if (change.side === 'at') return `the same as ${held}`
  const percent = change.percent === null ? '' : ` (${change.percent.replace(/\.0$/, '')} %)`
  return `${change.by}${unitAfter(unit)}${percent} ${change.side} ${held}`
}

function toCriterionSays({ criterion, unit, reference }: LeadingNow, phase: Phase | null): string | null {
  if (criterion === null) {
    if (phase === null) return 'with no criterion while no phase is recorded'
    return reference === null ? null : `for which ${PHASES[phase]} has no fixed level`
  }
  const level = `${LEVELS[criterion.is]} (${criterion.strict ? 'more than ' : ''}${criterion.at}${unitAfter(unit)})`
  if (criterion.reached === 'yes') return `at or past ${level}`
  if (criterion.reached === 'open') return `which leaves open whether it has reached ${level}`
  return criterion.away === null || criterion.away === '0' ? `not yet past ${level}` : `${criterion.away}${unitAfter(unit)} below ${level}`
}

function leadingSays({ leading, hasResults, phase }: StandsFacts): string {
  if (leading === null) return hasResults ? 'no marker of the disease has a number' : 'no result has come'
  const { marker, value, on, daysAgo, since } = leading
  const now = `${markerWords(marker)} ${value} on ${on} (${ago(daysAgo)})`
  const words = since === null ? [] : [`reported as "${since.words}" on ${since.on}`]
  return [now, ...words, againstLowest(leading), toCriterionSays(leading, phase?.phase ?? null)].filter((part) => part !== null).join(', ')
}

function why({ top, nextDue, answered, leftOn, phase }: StandsFacts): string {
  if (top !== null) {
    const tags = [top.certainty === 'possible' ? 'possible' : null, top.state === 'met' ? null : top.state].filter((tag) => tag !== null)
    const more = top.more === 0 ? '' : `, and ${counted(top.more, 'more finding')}`
    return `because of "${ruleTitle(top.rule)}"${tags.length === 0 ? '' : ` (${tags.join(', ')})`}${more}`
  }
  const rest = answered === 0 ? 'nothing open' : `${counted(answered, 'finding')} answered, none open`
  if (leftOn !== null) return `${rest}, and nothing due, for the patient is no longer followed since ${leftOn}`
  if (nextDue === null)
    return phase === null ? `${rest}, but without a phase only rules of danger run and nothing is due` : `${rest} and nothing due by the plan`
  const [first, ...others] = nextDue.groups.map((group) => GROUP_WORDS[group])
  return `${rest}, next due ${nextDue.on}: ${first}${others.length === 0 ? '' : ` and ${counted(others.length, 'more test')}`}`
}

/** One sentence of where the patient stands, to be read aloud: phase and care; response; the leading marker; how soon to look and why; what waits unread. */
export function standsSentence(facts: StandsFacts): string {
  const held =
    facts.held === 0 ? null : `${counted(facts.held, 'held row')} of results nobody has decided on ${facts.held === 1 ? 'is' : 'are'} not in this`
  const parts = [phaseSays(facts), responseSays(facts), leadingSays(facts), `${LOOK[facts.window]}, ${why(facts)}`, held]
  return `${parts.filter((part) => part !== null).join('; ')}.`
}
