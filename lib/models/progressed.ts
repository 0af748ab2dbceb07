import type { Course, Mark, Marker } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimal, type Interval } from '../units/index.ts'
import { marrowSeries } from './marrowSeries.ts'

/** Least rise in the marker's unit; `high` is the one that suffices from a high reference on. */
export interface Rise {
  readonly least: Decimal
  readonly strict: boolean
  readonly high: { readonly from: Decimal; readonly least: Decimal } | null
}

type Followed = Pick<Marker<string>, 'window' | 'lowest' | 'lowestConfirmed'>

const FACTOR = decimal('1.25')
/** Rises that make progressive disease, each together with 25 %. */
export const PROGRESSION = {
  serum: { least: decimal('5'), strict: false, high: { from: decimal('50'), least: decimal('10') } },
  /** IgD is kept in mg/L. */
  serumMgL: { least: decimal('5000'), strict: false, high: { from: decimal('50000'), least: decimal('10000') } },
  urine: { least: decimal('200'), strict: false, high: null },
  dflc: { least: decimal('100'), strict: true, high: null },
  marrow: { least: decimal('10'), strict: false, high: null },
} as const satisfies Record<string, Rise>
/** Growth of a lesion, %, that does. */
export const GROWTH = decimal('50')

/** Certain for every value the intervals leave possible: both conditions are judged from the lowest current and the highest reference value. */
function rose(current: Interval, reference: Interval, { least, strict, high }: Rise): boolean {
  if (reference.high === null) return false
  const rise = current.low.minus(reference.high)
  const enough = strict ? rise.gt(least) : rise.gte(least)
  const share = reference.high.lte(0) || current.low.gte(reference.high.times(FACTOR))
  // What an interval leaves below the high reference must show the share as well: where it shows it at that reference, it shows it at any below.
  const shareBelow = (from: Decimal) => reference.low.gte(from) || current.low.gte(from.times(FACTOR))
  return (enough && share) || (high !== null && rise.gte(high.least) && shareBelow(high.from))
}

function roseAt({ window }: Followed, at: number, rise: Rise, mark: Mark | null | undefined): boolean {
  const current = at > 0 ? window[at] : undefined
  return current !== undefined && mark !== null && mark !== undefined && rose(current.value, mark.value, rise)
}

// The immunoglobulin stands in where electrophoresis did not measure the protein at baseline.
function immunoglobulinCriteria({ immunoglobulin, measurableBy }: Course): readonly (readonly [Followed, Rise])[] {
  if (immunoglobulin === null || measurableBy.includes('serum')) return []
  return [[immunoglobulin, immunoglobulin.unit === 'mg/L' ? PROGRESSION.serumMgL : PROGRESSION.serum]]
}

function criteria(course: Course): readonly (readonly [Followed, Rise])[] {
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, dflc } = course.markers
  const { measurableBy } = course
  const lightChainOnly = !measurableBy.includes('serum') && !measurableBy.includes('urine')
  const marrowOnly = measurableBy.every((by) => by === 'marrow')
  return [
    [serum, PROGRESSION.serum],
    ...immunoglobulinCriteria(course),
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
