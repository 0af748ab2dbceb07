import type { Analyte } from '../../results/index.ts'
import type { Finding, RuleId } from '../../rules/index.ts'
import type { Day } from '../../time/index.ts'
import { decimal } from '../../units/index.ts'
import { firstThatHolds, lastThatHolds, remembered } from './edge.ts'
import { guesses } from './guesses.ts'
import { printedText, type Subject, stepsAtLeast, withNext } from './nextSample.ts'
import { aboutOnly, type Question, ruleShows, type Then, thenSaid } from './question.ts'

/** The next value from which on something is said, and the neighbouring one at which it is not, both as the laboratory prints them. */
export interface ValueEdge {
  readonly analyte: Analyte
  readonly unit: string
  readonly side: 'at-or-above' | 'at-or-below'
  readonly at: string
  readonly beside: string
  /** What else the sample holds, as last. */
  readonly with: readonly { readonly analyte: Analyte; readonly value: string }[]
  readonly on: Day
}

/** An edge with what would be said on it and beside it. */
export interface Edged {
  readonly edge: ValueEdge
  readonly gives: Then
  readonly otherwise: Then
  /** Printed steps, for an order of edges. */
  readonly steps: number
}

/** Farther no next value is looked for, in the unit kept (ours). */
const FARTHEST: Partial<Record<Analyte, string>> = {
  'serum-m-protein': '150',
  'urine-m-protein': '20000',
  'kappa-flc': '20000',
  'lambda-flc': '20000',
  haemoglobin: '250',
  calcium: '6',
  creatinine: '2500',
  platelets: '1000',
  neutrophils: '50',
  'circulating-plasma-cells': '100',
  igd: '100000',
}
const FARTHEST_OTHER = '200'
const TIMES_LAST = 4

function farthest(subject: Subject): number {
  const last = stepsAtLeast(subject, subject.lastPrinted.times(subject.factor))
  return Math.max(stepsAtLeast(subject, decimal(FARTHEST[subject.analyte] ?? FARTHEST_OTHER)), TIMES_LAST * last)
}

function edgeOf(subject: Subject, at: number, beside: number): ValueEdge {
  return {
    analyte: subject.analyte,
    unit: subject.printedUnit,
    side: at > beside ? 'at-or-above' : 'at-or-below',
    at: printedText(subject, at),
    beside: printedText(subject, beside),
    with: subject.beside.map(({ analyte, provenance: { valueText, unitText } }) => ({ analyte, value: `${valueText} ${unitText}`.trim() })),
    on: subject.on,
  }
}

/** The value from which on a rule shows what is wanted: upwards, or downwards where low is bad. Null where no value in reach is such an edge. */
export function edgeWhere(question: Question, subject: Subject, rule: RuleId, wanted: (found: Finding) => boolean): number | null {
  const small = aboutOnly(question.history, subject.analyte)
  const holds = remembered((steps) => ruleShows(question, withNext(small, subject, steps), subject.on, rule, wanted))
  const [to, guessed] = [farthest(subject), guesses(question.assessment.course, rule, subject)]
  return subject.low ? lastThatHolds(holds, 0, to, guessed) : firstThatHolds(holds, 0, to, guessed)
}

/** What is asked of what is said on an edge. */
export interface EdgeAsked {
  /** True on the edge and false beside it, or nothing is claimed. */
  readonly holds: (said: Then) => boolean
  /** Whether what is said on the edge is worth telling; everything is, where it is not named. */
  readonly isWorth?: (gives: Then) => boolean
}

/**
 * What is said at `at` and one printed step away from it, by assessing the patient with that next sample. Null where the whole assessment does not say at
 * `at` what `holds` asks, or says it beside it too: then nothing is claimed.
 */
export function asEdge(
  question: Question,
  subject: Subject,
  rule: RuleId,
  [at, beside]: readonly [at: number, beside: number],
  { holds, isWorth = () => true }: EdgeAsked,
): Edged | null {
  const gives = thenSaid(question, subject, at, rule)
  if (!holds(gives) || !isWorth(gives)) return null
  const otherwise = thenSaid(question, subject, beside, rule)
  return holds(otherwise) ? null : { edge: edgeOf(subject, at, beside), gives, otherwise, steps: at }
}
