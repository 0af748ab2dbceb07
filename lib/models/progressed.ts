import type { Course, Mark, Marker } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimal, type Interval } from '../units/index.ts'
import { marrowSeries } from './marrowSeries.ts'

/** Least rise in the marker's unit; `from50` is the one that suffices from a reference of 50 on. */
export interface Rise {
  readonly least: Decimal
  readonly strict: boolean
  readonly from50: Decimal | null
}

const FACTOR = decimal('1.25')
const FIFTY = decimal('50')
/** Rises that make progressive disease, each together with 25 %. */
export const PROGRESSION = {
  serum: { least: decimal('5'), strict: false, from50: decimal('10') },
  urine: { least: decimal('200'), strict: false, from50: null },
  dflc: { least: decimal('100'), strict: true, from50: null },
  marrow: { least: decimal('10'), strict: false, from50: null },
} as const satisfies Record<string, Rise>
/** Growth of a lesion, %, that does. */
export const GROWTH = decimal('50')

type Series = Pick<Marker, 'window' | 'lowest' | 'lowestConfirmed'>

/** Certain for every value the intervals leave possible: both conditions are judged from the lowest current and the highest reference value. */
function rose(current: Interval, reference: Interval, { least, strict, from50 }: Rise): boolean {
  if (reference.high === null) return false
  const rise = current.low.minus(reference.high)
  const enough = strict ? rise.gt(least) : rise.gte(least)
  const share = reference.high.lte(0) || current.low.gte(reference.high.times(FACTOR))
  return (enough && share) || (from50 !== null && reference.low.gte(FIFTY) && rise.gte(from50))
}

function roseAt({ window }: Series, at: number, rise: Rise, mark: Mark | null | undefined): boolean {
  const current = at > 0 ? window[at] : undefined
  return current !== undefined && mark !== null && mark !== undefined && rose(current.value, mark.value, rise)
}

function criteria(course: Course): readonly (readonly [Series, Rise])[] {
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, dflc } = course.markers
  const { measurableBy } = course
  const lightChainOnly = !measurableBy.includes('serum') && !measurableBy.includes('urine')
  const marrowOnly = measurableBy.every((by) => by === 'marrow')
  return [
    [serum, PROGRESSION.serum],
    [urine, PROGRESSION.urine],
    ...(lightChainOnly ? ([[dflc, PROGRESSION.dflc]] as const) : []),
    ...(marrowOnly ? ([[marrowSeries(course), PROGRESSION.marrow]] as const) : []),
  ]
}

// A scan that records neither new lesions nor growth says nothing about either: it does not end what the one before showed.
function lesionsGrew(course: Course, on: Day): boolean {
  const since = course.line?.start ?? on
  const latest = course.imaging.findLast((event) => event.on <= on && event.on > since && (event.newLesions !== null || event.growthPercent !== null))
  return latest !== undefined && ((latest.newLesions ?? 0) > 0 || (latest.growthPercent?.gte(GROWTH) ?? false))
}

/** Progressive disease on a day, by the last samples up to it against the lowest values before them, or by lesions (IMWG 2016, Kumar, Lancet Oncol 17:e328). */
export function progressedOn(course: Course, on: Day): boolean {
  if (lesionsGrew(course, on)) return true
  return criteria(course).some(([marker, rise]) => {
    const at = marker.window.findLastIndex((sample) => sample.on <= on)
    return roseAt(marker, at, rise, marker.lowest[at])
  })
}

/**
 * Whether the last two samples of one marker up to a day both show it against the lowest confirmed value before the first of them; lesions need no
 * second look.
 */
export function progressionConfirmedOn(course: Course, on: Day): boolean {
  if (lesionsGrew(course, on)) return true
  return criteria(course).some(([marker, rise]) => {
    const at = marker.window.findLastIndex((sample) => sample.on <= on)
    const reference = marker.lowestConfirmed[at - 1]
    return roseAt(marker, at - 1, rise, reference) && roseAt(marker, at, rise, reference)
  })
}
