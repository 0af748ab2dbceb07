import type { Measurement } from '../course/index.ts'
import { type Day, daysBetween } from '../time/index.ts'
import type { Holds } from '../units/index.ts'
import { anyCensored, unitSuspect, when } from './cautions.ts'
import { evidenceOf, inOrderOfRole, valueText } from './evidence.ts'
import type { Caution, Evidence, Finding, Window } from './finding.ts'
import type { Judgement, Shown } from './judgement.ts'
import { lastTwo } from './lastTwo.ts'
import { type About, findingsOfJudged, findingsOfRuns, type Judged } from './runs.ts'
import { laterWindow } from './window.ts'

/** What one rule adds to what every limit tells. */
export interface Telling {
  readonly window: Window
  /** Value over threshold (threshold over value where low is bad). */
  readonly excess: number
  readonly cautions?: readonly Caution[]
  readonly evidence?: readonly Evidence[]
  readonly facts: Readonly<Record<string, string>>
}

/** A limit each sample of a series meets or not, by itself. */
export interface Limited {
  readonly about: About
  readonly of: { readonly name: string; readonly unit: string; readonly samples: readonly Measurement[] }
  readonly holds: (sample: Measurement, at: number) => Holds
  /** `previous` is the sample that confirms it, where one does. */
  readonly tells: (sample: Measurement, at: number, previous?: Measurement) => Telling
}

function shown({ of, tells }: Limited, at: number, state: Finding['state'], censored: boolean): Shown {
  const current = of.samples[at] as Measurement
  const before = of.samples[at - 1]
  const previous = state === 'confirmed' ? before : undefined
  const { window, excess, cautions = [], evidence = [], facts } = tells(current, at, previous)
  const suspect = unitSuspect(before, current) || (previous !== undefined && unitSuspect(of.samples[at - 2], previous))
  return {
    window,
    excess,
    cautions: [
      ...when(state === 'unconfirmed', 'one-sample'),
      ...when(censored || anyCensored(previous?.value), 'censored'),
      ...when(suspect, 'unit-suspect'),
      ...cautions,
    ],
    evidence: inOrderOfRole([
      ...(previous === undefined ? [] : [evidenceOf('previous', of.name, of.unit, previous)]),
      evidenceOf('current', of.name, of.unit, current),
      ...evidence,
    ]),
    facts: { value: valueText(current, of.unit), on: current.on, ...facts },
  }
}

/** A limit that asks for two samples, sample by sample: unconfirmed by the last, confirmed by the last two. */
export function twoSampleJudged(limited: Limited): Judged {
  const { about, of } = limited
  const holds = of.samples.map(limited.holds)
  const judge = (at: number): Judgement | null => {
    const state = lastTwo(holds, at)
    return state === null ? null : { ...state, shown: () => shown(limited, at, state.state, anyCensored(of.samples[at]?.value)) }
  }
  return { about, samples: of.samples, judge }
}

/** Findings of a limit that asks for two samples. */
export function twoSampleFindings(limited: Limited): Finding[] {
  return findingsOfJudged([twoSampleJudged(limited)])
}

/** Days after which a danger finding is stale: it is then looked at within 7 days (clinical.md 3.3). */
export const STALE_AFTER_DAYS = 30

function staleness({ window, cautions, ...rest }: Shown, on: Day, today: Day): Shown {
  if (daysBetween(on, today) <= STALE_AFTER_DAYS) return { window, cautions, ...rest }
  return { ...rest, window: laterWindow(window, 'within-7-days'), cautions: [...cautions, 'stale'] }
}

/** Findings of a danger: met by one sample, stale once the last sample is older than 30 days. */
export function dangerFindings(limited: Limited, today: Day): Finding[] {
  const { of, about } = limited
  const judge = (at: number): Judgement | null => {
    const current = of.samples[at] as Measurement
    const certainty = limited.holds(current, at)
    if (certainty === 'no') return null
    const told = () => shown(limited, at, 'met', anyCensored(current.value))
    return { certainty, state: 'met', shown: () => (at === of.samples.length - 1 ? staleness(told(), current.on, today) : told()) }
  }
  return findingsOfRuns(about, of.samples, judge)
}
