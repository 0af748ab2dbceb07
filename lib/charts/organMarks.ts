import type { Course, Measurement } from '../course/index.ts'
import {
  CALCIUM_ABOVE_UPPER,
  criterionFor,
  DANGEROUS_CALCIUM,
  DANGEROUS_HAEMOGLOBIN,
  HAEMOGLOBIN_FALL,
  haemoglobinBar,
  INJURY_RATIO,
  kidneyInjuryAt,
} from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimal, decimalText, smaller } from '../units/index.ts'
import { drawnAt } from './label.ts'
import { type ChartMark, laboratoryMark, levelText, markAt } from './marks.ts'
import type { Span } from './timeAxis.ts'

const isPrecursor = ({ phase }: Course): boolean => phase?.phase === 'mgus' || phase?.phase === 'smouldering'

function highest(samples: readonly Measurement[]): Measurement | null {
  return samples.reduce<Measurement | null>((top, sample) => (top === null || sample.value.low.gt(top.value.low) ? sample : top), null)
}

function haemoglobinCriterion(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples, window } = course.markers.haemoglobin
  if (isPrecursor(course)) {
    const last = samples.at(-1)
    if (last === undefined) return []
    const at = haemoglobinBar(course, last).level
    return [markAt('criterion', at, from, to, levelText('myeloma-defining', { at, strict: true, low: true }, unit))]
  }
  const top = course.phase === null ? null : highest(window)
  if (top === null) return []
  const at = top.value.low.minus(HAEMOGLOBIN_FALL)
  const words = `relapse at ${decimalText(at)} ${unit} (highest ${decimalText(top.value.low)})`
  return [markAt('criterion', at, top.on, to, words)]
}

/** Haemoglobin: criterion of the phase, the laboratory's lower limit, danger. */
export function haemoglobinMarks(course: Course, span: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.haemoglobin
  const danger = decimal(DANGEROUS_HAEMOGLOBIN)
  return [
    ...haemoglobinCriterion(course, span),
    ...laboratoryMark(samples, 'low', unit, span.from, span.to),
    markAt('limit', danger, span.from, span.to, levelText('danger', { at: danger, strict: true, low: true }, unit)),
  ]
}

/** Calcium: criterion of the phase, the laboratory's upper limit, danger. */
export function calciumMarks(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.calcium
  const fixed = course.phase === null ? null : criterionFor(course, 'calcium', null)
  const upper = samples.at(-1)?.results[0]?.referenceHigh?.kept ?? null
  const at: Decimal | null =
    fixed === null ? null : isPrecursor(course) && upper !== null ? smaller(fixed.at, upper.plus(CALCIUM_ABOVE_UPPER)) : fixed.at
  const words = isPrecursor(course) ? 'myeloma-defining' : 'relapse'
  const danger = decimal(DANGEROUS_CALCIUM)
  return [
    ...(at === null ? [] : [markAt('criterion', at, from, to, levelText(words, { at, strict: true, low: false }, unit))]),
    ...laboratoryMark(samples, 'high', unit, from, to),
    markAt('limit', danger, from, to, levelText('danger', { at: danger, strict: false, low: false }, unit)),
  ]
}

function injuryMark({ markers: { creatinine }, thresholds, today }: Course): readonly ChartMark[] {
  const lowest = kidneyInjuryAt(creatinine.samples, creatinine.samples.length - 1, thresholds.kidneyInjuryDays)?.lowest
  if (lowest === undefined) return []
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

/** Creatinine: criterion of the phase, the laboratory's upper limit, 1.5 times the lowest of the days before the latest. */
export function creatinineMarks(course: Course, { from, to }: Span): readonly ChartMark[] {
  const { unit, samples } = course.markers.creatinine
  return [...creatinineCriterion(course, from), ...laboratoryMark(samples, 'high', unit, from, to), ...injuryMark(course)]
}
