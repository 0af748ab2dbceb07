import type { Mark, Measurement, TreatmentLine } from '../../course/index.ts'
import { type Finding, ruleTitle, says } from '../../rules/index.ts'
import type { Consequence, Marks, NowWould } from '../../standing/index.ts'
import { type Decimal, decimalText, type Interval, roundedText, unitWords } from '../../units/index.ts'
import type { ConsequenceView, FindingInPreview, MarksInPreview } from './views.ts'

function findingIn(finding: Finding): FindingInPreview {
  return { rule: finding.rule, title: ruleTitle(finding.rule), window: finding.window, says: says(finding) }
}

// A quotient has no unit and no end of digits: two places, as ratios are told everywhere. (common practice)
function levelIn({ low, high }: Interval, unit: string): string {
  const told = (value: Decimal) => (unit === '1' ? roundedText(value, 2) : decimalText(value))
  const level = high === null ? `above ${told(low)}` : low.eq(high) ? told(low) : `${told(low)} to ${told(high)}`
  return unit === '1' || unit === '' ? level : unitWords(`${level} ${unit}`)
}

const sampleIn = (one: Measurement | null, unit: string): string | null => (one === null ? null : `${levelIn(one.value, unit)} of ${one.on}`)
const markIn = (one: Mark | null, unit: string): string | null => (one === null ? null : `${levelIn(one.value, unit)} of ${one.sample.on}`)

function marksIn({ marker, unit, now, would }: Consequence['marks'][number]): MarksInPreview {
  const both = (text: (marks: Marks) => string | null): NowWould<string | null> => ({ now: text(now), would: text(would) })
  return {
    marker,
    rows: [
      { mark: 'baseline', ...both((marks) => sampleIn(marks.baseline, unit)) },
      { mark: 'lowest', ...both((marks) => markIn(marks.lowest, unit)) },
      { mark: 'lowest confirmed', ...both((marks) => markIn(marks.lowestConfirmed, unit)) },
    ],
  }
}

function lineIn(line: TreatmentLine | null): string {
  if (line === null) return 'none recorded'
  const { number, start, end, regimen, intent } = line
  const drugs = regimen.length === 0 ? 'drugs not recorded' : regimen.join(' + ')
  return `line ${number} from ${start}${end === null ? '' : ` to ${end}`}, ${drugs}${intent === null ? '' : `, ${intent}`}`
}

function responseIn({ category, state, provisional }: Consequence['response']['now']): string {
  if (category === null) return 'none'
  return [category, state, provisional ? 'provisional' : null].filter((part) => part !== null).join(', ')
}

/** A consequence in words. Pure. */
export function consequenceView(consequence: Consequence): ConsequenceView {
  const { window, why, phase, care, line, clinician, response, due } = consequence
  const pair = <T>({ now, would }: NowWould<T>, text: (one: T) => string): NowWould<string> => ({ now: text(now), would: text(would) })
  const facts = [
    { name: 'Phase', ...pair(phase, (one) => (one === null ? 'not recorded' : `${one.phase.replaceAll('-', ' ')} since ${one.since}`)) },
    { name: 'Care', ...pair(care, (one) => one?.replaceAll('-', ' ') ?? 'none') },
    { name: 'Line', ...pair(line, lineIn) },
    { name: 'Clinician', ...pair(clinician, (one) => one ?? 'not recorded') },
  ].filter(({ now, would }) => now !== would)
  const view = {
    window,
    why,
    facts,
    appearing: consequence.appearing.map(findingIn),
    ending: consequence.ending.map(findingIn),
    changing: consequence.changing.map(({ now, would }) => ({ now: findingIn(now), would: findingIn(would) })),
    marks: consequence.marks.map(marksIn),
    response: pair(response, responseIn),
    due,
  }
  const { appearing, ending, changing, marks } = view
  const lists = [facts, appearing, ending, changing, marks, due].every((list) => list.length === 0)
  const same = [view.window, view.why, view.response].every(({ now, would }) => now === would)
  return { ...view, isSame: lists && same }
}
