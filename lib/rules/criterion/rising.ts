import type { Mark, Measurement } from '../../course/index.ts'
import { allHold, type Decimal, decimal, decimalText, type Holds, isExact, roundedText } from '../../units/index.ts'
import { anyCensored, methodChanged, unitSuspect, when } from '../cautions.ts'
import { evidenceOf, keptText } from '../evidence.ts'
import { ratioOf } from '../excess.ts'
import type { Caution, Window } from '../finding.ts'
import { type Judgement, type Shown, stateOf } from '../judgement.ts'
import { laterWindow } from '../window.ts'
import { numberLevel, probabilityFact } from './probability.ts'
import { levelFrom, meets, type RiseCriterion } from './rise.ts'

/** A series with what each of its samples is held against; a Marker is one. */
export interface Followed {
  readonly name: string
  readonly unit: string
  readonly window: readonly Measurement[]
  readonly lowest: readonly (Mark | null)[]
  readonly lowestConfirmed: readonly (Mark | null)[]
}

/** A rise above the lowest value that counts, and how it is told. */
export interface Rising {
  readonly of: Followed
  readonly criterion: RiseCriterion
  /** A further condition each sample must meet, such as an abnormal ratio. */
  readonly also?: (sample: Measurement) => Holds
  readonly cautionsOf?: (sample: Measurement) => readonly Caution[]
  /** Largest rise noise explains, as a share; null where none is published. */
  readonly noise: Decimal | null
  /** Published variation between samples, as a fraction; left out where none is published. */
  readonly cv?: number
  /** A change of method caps the window at within-30-days. */
  readonly freeLightChains: boolean
  /** From so many times the least amount and the reference on, an unconfirmed rise is to be looked at within 7 days (ours); null where none is. */
  readonly hastens: number | null
}

/** What a sample shows against the lowest value (unconfirmed) or the lowest confirmed one (confirmed). */
export interface RiseVerdict extends Pick<Judgement, 'certainty' | 'state'> {
  readonly reference: Mark
  /** The sample before meets the criterion against the lowest value too. */
  readonly twoAboveLowest: boolean
}

/**
 * Judges sample `at` of the window (clinical.md 3.2). Unconfirmed: against the lowest value before it. Confirmed: it and the sample before,
 * both against the lowest confirmed value as it stood before the first of them. Null when it shows no such rise.
 */
export function riseAt({ of, criterion, also }: Rising, at: number): RiseVerdict | null {
  const current = of.window[at]
  const lowest = of.lowest[at] ?? null
  if (current === undefined || lowest === null) return null
  const holds = (mark: Mark, sample: Measurement) => {
    const rise = meets(criterion, mark.value, sample.value)
    return rise === 'no' || also === undefined ? rise : allHold(rise, also(sample))
  }
  const previous = of.window[at - 1]
  const level = of.lowestConfirmed[at - 1] ?? null
  const unconfirmed = holds(lowest, current)
  const confirmed = previous === undefined || level === null ? 'no' : allHold(holds(level, previous), holds(level, current))
  const state = stateOf(unconfirmed, confirmed)
  if (state === null) return null
  if (state.state === 'confirmed' && level !== null) return { ...state, reference: level, twoAboveLowest: true }
  const before = of.lowest[at - 1] ?? null
  return { ...state, reference: lowest, twoAboveLowest: previous !== undefined && before !== null && holds(before, previous) === 'certain' }
}

// Twice the absolute minimum and at least doubled: a rise by the whole reference and by twice the amount; so for other numbers a clinic chose.
function isLarge({ hastens, criterion }: Rising, reference: Mark, current: Measurement): boolean {
  if (hastens === null) return false
  const large = { share: decimal(hastens - 1), amount: criterion.amount.times(hastens), strictAmount: false, high: null }
  return meets(large, reference.value, current.value) === 'certain'
}

/** True when noise alone explains a rise: the current value is at most so large a share above the reference. */
export function insideNoise(noise: Decimal | null, reference: Mark, current: Measurement): boolean {
  if (noise === null || reference.value.low.lte(0) || current.value.high === null) return false
  return current.value.high.lte(reference.value.low.times(noise.plus(1)))
}

/** The rise in the unit kept and in per cent; empty where a value is an interval, no per cent from a reference of 0 or below. */
export function riseFacts(reference: Measurement, current: Measurement): Record<string, string> {
  if (!isExact(reference.value) || !isExact(current.value)) return {}
  const by = current.value.low.minus(reference.value.low)
  const from = reference.value.low
  return { rise: decimalText(by), ...(from.gt(0) ? { percent: roundedText(by.times(100).div(from), 1) } : {}) }
}

function shownBy(rising: Rising, at: number, verdict: RiseVerdict): Shown {
  const { of, criterion } = rising
  const current = of.window[at] as Measurement
  const { reference, twoAboveLowest, state } = verdict
  const previous = twoAboveLowest ? (of.window[at - 1] ?? null) : null
  const told = previous === null ? [current] : [previous, current]
  const changed = told.some((sample) => methodChanged(reference.sample, sample))
  const wanted: Window = state === 'confirmed' || isLarge(rising, reference, current) ? 'within-7-days' : 'within-30-days'
  const level = levelFrom(criterion, reference.value.low)
  return {
    window: changed && rising.freeLightChains ? laterWindow(wanted, 'within-30-days') : wanted,
    cautions: [
      ...when(state === 'unconfirmed', twoAboveLowest ? 'lowest-not-confirmed' : 'one-sample'),
      ...when(anyCensored(reference.value, previous?.value, current.value), 'censored'),
      ...when(changed, 'method-changed'),
      ...when(unitSuspect(of.window[at - 1], current) || (previous !== null && unitSuspect(of.window[at - 2], previous)), 'unit-suspect'),
      ...(rising.cautionsOf?.(current) ?? []),
      ...when(insideNoise(rising.noise, reference, current), 'inside-noise'),
    ],
    evidence: [
      evidenceOf('reference', of.name, of.unit, reference.sample),
      ...(previous === null ? [] : [evidenceOf('previous', of.name, of.unit, previous)]),
      evidenceOf('current', of.name, of.unit, current),
    ],
    facts: {
      value: keptText(current, of.unit),
      on: current.on,
      reference: keptText(reference.sample, of.unit),
      referenceOn: reference.sample.on,
      level: `${level.strict ? '>' : ''}${decimalText(level.at)} ${of.unit}`,
      unit: of.unit,
      ...riseFacts(reference.sample, current),
      ...probabilityFact({ window: of.window, at, reference: reference.sample, cv: rising.cv, needed: numberLevel(criterion) }),
    },
    excess: ratioOf(current.value.low, level.at),
  }
}

/** The judgement of each sample of the window, for the runs that show a rise. */
export function judgeRise(rising: Rising): (at: number) => Judgement | null {
  return (at) => {
    const verdict = riseAt(rising, at)
    return verdict === null ? null : { certainty: verdict.certainty, state: verdict.state, shown: () => shownBy(rising, at, verdict) }
  }
}
