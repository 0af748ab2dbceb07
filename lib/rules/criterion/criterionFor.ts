import type { Course, Marker, MarkerName, Measurement } from '../../course/index.ts'
import { type Decimal, decimal } from '../../units/index.ts'
import { isPrecursor, runsAsActive } from '../phases.ts'
import { type Level, levelFrom, RISES, type RiseCriterion } from './rise.ts'

/** Where a marker's criterion lies, in the unit kept, for strips and charts. `low` is true where values below it count. */
export interface Criterion extends Level {
  readonly label: string
  readonly low: boolean
}

const PROGRESSION: Partial<Record<MarkerName, RiseCriterion>> = {
  'serum-m-protein': RISES.serum,
  'urine-m-protein': RISES.urine,
  dflc: RISES.dflc,
}

const HAEMOGLOBIN: Criterion = { at: decimal('100'), strict: true, label: 'limit', low: true }
const CALCIUM: Criterion = { at: decimal('2.75'), strict: true, label: 'limit', low: false }
const CREATININE = decimal('177')
const PRECURSOR_LIGHT_CHAIN = decimal('100')

function creatinine(course: Course): Criterion {
  const start = runsAsActive(course) ? course.markers.creatinine.baseline : null
  if (start === null) return { at: CREATININE, strict: true, label: 'limit', low: false }
  return { at: start.value.low.plus(CREATININE), strict: false, label: 'start of line + 177', low: false }
}

/**
 * The criterion of one marker in the patient's phase: progression above `reference` in active disease (null without a reference), fixed limits
 * for haemoglobin, calcium, creatinine (above the start of the line in active disease), and in MGUS and smouldering for the involved chain and
 * ratio. Null where the phase has none.
 */
export function criterionFor(course: Course, marker: MarkerName, reference: Decimal | null): Criterion | null {
  if (marker === 'haemoglobin') return HAEMOGLOBIN
  if (marker === 'calcium') return CALCIUM
  if (marker === 'creatinine') return creatinine(course)
  const rise = PROGRESSION[marker]
  if (rise !== undefined) {
    return reference === null || !runsAsActive(course) ? null : { ...levelFrom(rise, reference), label: 'progression at', low: false }
  }
  return isPrecursor(course) ? { at: PRECURSOR_LIGHT_CHAIN, strict: false, label: 'limit', low: false } : null
}

/** What the current value of a marker is held against by its criterion, and its name; null where there is none. */
export interface Held {
  readonly label: string
  readonly value: Decimal
  readonly sample: Measurement
}

function lowestBeforeLast({ window, lowest }: Marker): Held | null {
  const mark = lowest[Math.max(window.length - 1, 0)] ?? null
  return mark === null ? null : { label: 'lowest', value: mark.value.high ?? mark.value.low, sample: mark.sample }
}

/** The reference of a marker: the lowest value before the current sample, or for creatinine in active disease the start of the line. */
export function referenceFor(course: Course, marker: MarkerName): Held | null {
  if (PROGRESSION[marker] !== undefined) return lowestBeforeLast(course.markers[marker])
  if (marker !== 'creatinine' || !runsAsActive(course)) return null
  const start = course.markers.creatinine.baseline
  return start === null ? null : { label: 'start of line', value: start.value.low, sample: start }
}
