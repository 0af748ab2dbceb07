import type { Course, Measurement } from '../course/index.ts'
import { criterionFor } from '../rules/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { type Decimal, decimal, decimalText, larger, smaller } from '../units/index.ts'
import { drawnAt } from './label.ts'
import { type ChartMark, laboratoryMark, levelText, markAt } from './marks.ts'
import type { Span } from './timeAxis.ts'

const isPrecursor = ({ phase }: Course): boolean => phase?.phase === 'mgus' || phase?.phase === 'smouldering'

/** Haemoglobin, g/L: fall from the highest of the line (IMWG 2016), distance below the lower limit (IMWG 2014), danger (CTCAE v5 grade 3). */
const FALL = decimal('20')
const DANGER_HAEMOGLOBIN = decimal('80')
/** Lower limits where the laboratory names none (WHO, from memory). */
const LOWER_LIMIT = { male: decimal('130'), female: decimal('120') } as const
/** Calcium, mmol/L: distance above the laboratory's upper limit (IMWG 2014), danger (common practice). */
const ABOVE_UPPER = decimal('0.25')
const DANGER_CALCIUM = decimal('3')
/** Creatinine: ratio to the lowest of the days before (after KDIGO 2012; the days are ours). */
const INJURY_RATIO = decimal('1.5')
const INJURY_DAYS = 90

function highest(samples: readonly Measurement[]): Measurement | null {
  return samples.reduce<Measurement | null>((top, sample) => (top === null || sample.value.low.gt(top.value.low) ? sample : top), null)
}

function haemoglobinCriterion(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples, window } = course.markers.haemoglobin
  if (isPrecursor(course)) {
    const fixed = criterionFor(course, 'haemoglobin', null)
    if (fixed === null) return []
    const lower = samples.at(-1)?.results[0]?.referenceLow?.kept ?? LOWER_LIMIT[course.patient.sex]
    const at = larger(fixed.at, lower.minus(FALL))
    return [markAt('criterion', at, from, to, levelText('myeloma-defining', { at, strict: true, low: true }, unit))]
  }
  const top = course.phase === null ? null : highest(window)
  if (top === null) return []
  const at = top.value.low.minus(FALL)
  const words = `relapse at ${decimalText(at)} ${unit} (highest ${decimalText(top.value.low)})`
  return [markAt('criterion', at, top.on, to, words)]
}

/** Haemoglobin: criterion of the phase, the laboratory's lower limit, danger. */
export function haemoglobinMarks(course: Course, span: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.haemoglobin
  return [
    ...haemoglobinCriterion(course, span),
    ...laboratoryMark(samples, 'low', unit, span.from, span.to),
    markAt('limit', DANGER_HAEMOGLOBIN, span.from, span.to, levelText('danger', { at: DANGER_HAEMOGLOBIN, strict: true, low: true }, unit)),
  ]
}

/** Calcium: criterion of the phase, the laboratory's upper limit, danger. */
export function calciumMarks(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.calcium
  const fixed = course.phase === null ? null : criterionFor(course, 'calcium', null)
  const upper = samples.at(-1)?.results[0]?.referenceHigh?.kept ?? null
  const at: Decimal | null = fixed === null ? null : isPrecursor(course) && upper !== null ? smaller(fixed.at, upper.plus(ABOVE_UPPER)) : fixed.at
  const words = isPrecursor(course) ? 'myeloma-defining' : 'relapse'
  return [
    ...(at === null ? [] : [markAt('criterion', at, from, to, levelText(words, { at, strict: true, low: false }, unit))]),
    ...laboratoryMark(samples, 'high', unit, from, to),
    markAt('limit', DANGER_CALCIUM, from, to, levelText('danger', { at: DANGER_CALCIUM, strict: false, low: false }, unit)),
  ]
}

function injuryMark({ markers: { creatinine }, today }: Course): readonly ChartMark[] {
  const last = creatinine.samples.at(-1)
  if (last === undefined) return []
  const opens = addDays(last.on, -INJURY_DAYS)
  const before = creatinine.samples.filter((sample) => sample.on >= opens && sample.on < last.on)
  const lowest = before.reduce<Measurement | null>(
    (low, sample) => (low === null || drawnAt(sample.value).at.lt(drawnAt(low.value).at) ? sample : low),
    null,
  )
  if (lowest === null) return []
  const from = drawnAt(lowest.value).at
  const at = from.times(INJURY_RATIO)
  return [markAt('limit', at, lowest.on, today, `danger at ${decimalText(at)} ${creatinine.unit} (1.5 x ${decimalText(from)})`)]
}

function creatinineCriterion(course: Course, from: Day): readonly ChartMark[] {
  const { baseline, unit } = course.markers.creatinine
  const criterion = course.phase === null || (!isPrecursor(course) && baseline === null) ? null : criterionFor(course, 'creatinine', null)
  if (criterion === null) return []
  const words = isPrecursor(course) ? 'myeloma-defining' : 'relapse'
  return [markAt('criterion', criterion.at, isPrecursor(course) ? from : (baseline?.on ?? from), course.today, levelText(words, criterion, unit))]
}

/** Creatinine: criterion of the phase, the laboratory's upper limit, 1.5 times the lowest of the 90 days before the latest. */
export function creatinineMarks(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.creatinine
  return [...creatinineCriterion(course, from), ...laboratoryMark(samples, 'high', unit, from, to), ...injuryMark(course)]
}
