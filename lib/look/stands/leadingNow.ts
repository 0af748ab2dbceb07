import { type Course, isActive, type Mark, type Marker, type MarkerName, type Measurement } from '../../course/index.ts'
import type { Analyte } from '../../results/index.ts'
import { criterionFor, immunoglobulinLevel, keptText, SMOULDERING_FROM } from '../../rules/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import { type Decimal, decimal, decimalText, isExact, roundedText } from '../../units/index.ts'
import { leadingMarkers } from '../leading.ts'

/** A level the leading marker is held against, and how far the current value is from it. Decimal text in the marker's unit. */
export interface ToCriterion {
  readonly is: 'confirmed-progression' | 'smouldering' | 'myeloma-defining'
  readonly at: string
  /** True where the level itself must be exceeded. */
  readonly strict: boolean
  /** `open`: the value is known only as a limit, on both sides of the level. */
  readonly reached: 'yes' | 'no' | 'open'
  /** From the value to the level; null where it is reached, or the value is known only as a limit. */
  readonly away: string | null
}

/** The leading marker now. Texts with their unit, but for numbers that say otherwise. */
export interface LeadingNow {
  readonly marker: string
  readonly unit: string
  readonly value: string
  readonly on: Day
  readonly daysAgo: number
  /** Reported since in words without a number, on that day. */
  readonly since: { readonly words: string; readonly on: Day } | null
  readonly reference: { readonly value: string; readonly on: Day; readonly isBaseline: boolean } | null
  /** Against the reference: decimal text without sign, and the side; per cent null where the reference is 0. Null where either is known only as a limit. */
  readonly change: { readonly by: string; readonly percent: string | null; readonly side: 'above' | 'below' | 'at' } | null
  readonly criterion: ToCriterion | null
}

/** What the current sample of a marker is held against to confirm a rise: the lowest confirmed value as it stood before it. */
export function lowestConfirmedNow({ window, lowestConfirmed }: Marker<string>): Mark | null {
  return window.length === 0 ? null : (lowestConfirmed[Math.max(window.length - 1, 0)] ?? null)
}

const PRECURSOR: Readonly<Record<string, readonly [is: ToCriterion['is'], at: Decimal]>> = {
  'serum-m-protein': ['smouldering', SMOULDERING_FROM.serum],
  'urine-m-protein': ['smouldering', SMOULDERING_FROM.urine],
  'involved-ratio': ['myeloma-defining', decimal('100')],
}

function levelOf(course: Course, { name }: Marker<string>, reference: Mark | null): (Pick<ToCriterion, 'is' | 'strict'> & { at: Decimal }) | null {
  if (course.phase === null) return null
  if (!isActive(course.phase.phase)) {
    const [is, at] = PRECURSOR[name] ?? [null, null]
    return is === null || (is === 'smouldering' && course.phase.phase !== 'mgus') ? null : { is, at, strict: false }
  }
  if (reference === null) return null
  const from = reference.value.high ?? reference.value.low
  const level = name in course.markers ? criterionFor(course, name as MarkerName, from) : immunoglobulinLevel(course, from)
  return level === null ? null : { is: 'confirmed-progression', at: level.at, strict: level.strict }
}

function toCriterion(course: Course, marker: Marker<string>, { value }: Measurement, reference: Mark | null): ToCriterion | null {
  const level = levelOf(course, marker, reference)
  if (level === null) return null
  const { is, at, strict } = level
  const reaches = (end: Decimal | null) => end === null || (strict ? end.gt(at) : end.gte(at))
  const reached = reaches(value.low) ? 'yes' : reaches(value.high) ? 'open' : 'no'
  const away = reached === 'no' && isExact(value) ? decimalText(at.minus(value.low)) : null
  return { is, at: decimalText(at), strict, reached, away }
}

function changeFrom({ value }: Measurement, { value: reference }: Mark): LeadingNow['change'] {
  if (!isExact(value) || !isExact(reference)) return null
  const by = value.low.minus(reference.low)
  const percent = reference.low.gt(0) ? roundedText(by.abs().times(100).div(reference.low), 1) : null
  return { by: decimalText(by.abs()), percent, side: by.gt(0) ? 'above' : by.lt(0) ? 'below' : 'at' }
}

/** Words reported after the last number: the number is then no longer what the laboratory says. */
function wordsSince(course: Course, { name }: Marker<string>, on: Day): LeadingNow['since'] {
  const latest = course.samplesOf(name as Analyte).at(-1)
  return latest === undefined || latest.on <= on || latest.value !== null ? null : { words: latest.words ?? 'no number', on: latest.on }
}

/** The leading marker, its latest number against its lowest confirmed and its criterion; null where no marker has a number. */
export function leadingNow(course: Course): LeadingNow | null {
  const [marker] = leadingMarkers(course)
  const current = marker?.samples.at(-1)
  if (marker === undefined || current === undefined) return null
  const mark = lowestConfirmedNow(marker)
  return {
    marker: marker.name,
    unit: marker.unit,
    value: keptText(current, marker.unit === '1' ? '' : marker.unit).trim(),
    on: current.on,
    daysAgo: daysBetween(current.on, course.today),
    since: wordsSince(course, marker, current.on),
    reference:
      mark === null
        ? null
        : {
            value: keptText({ ...mark.sample, value: mark.value }, marker.unit === '1' ? '' : marker.unit).trim(),
            on: mark.sample.on,
            isBaseline: marker.window.length < 3,
          },
    change: mark === null ? null : changeFrom(current, mark),
    criterion: toCriterion(course, marker, current, mark),
  }
}
