import type { Course, Marker, Measurement } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { atLeast, below, type Decimal, decimal, type Interval } from '../units/index.ts'

/** The categories that rest on how far a value fell. */
export type FallCategory = 'VGPR' | 'PR' | 'MR'

/** What one part of the criteria says of a category; `missing` names what would be needed. */
export type PartSays = 'met' | 'not-met' | 'not-needed' | { readonly missing: string }

const HUNDRED = decimal('100')
const SERUM_MEASURABLE = decimal('10')
const URINE_MEASURABLE = decimal('200')
const MARROW_MEASURABLE = decimal('30')
const URINE_LIMIT: Partial<Record<FallCategory, Decimal>> = { VGPR: decimal('100'), PR: decimal('200') }
const SERUM_FALL: Record<FallCategory, number> = { VGPR: 90, PR: 50, MR: 25 }
const DFLC_FALL: Partial<Record<FallCategory, number>> = { VGPR: 90, PR: 50 }

/** Whether the value fell by at least that many per cent for every value the intervals leave possible. Exact. */
function fellBy(percent: number, baseline: Interval, current: Interval): boolean {
  return current.high?.times(HUNDRED).lte(baseline.low.times(HUNDRED.minus(percent))) ?? false
}

const says = (met: boolean): PartSays => (met ? 'met' : 'not-met')

/** The last sample after the baseline, on or before a day. */
export function currentOn({ window }: Marker, on: Day): Measurement | null {
  const at = window.findLastIndex((sample) => sample.on <= on)
  return at > 0 ? (window[at] ?? null) : null
}

/** True when the latest report up to the day only says that the protein is there ("trace"): the number before it is no longer current. */
function isUnquantified(course: Course, on: Day): boolean {
  return course.samplesOf('serum-m-protein').findLast((sample) => sample.on <= on)?.value === null
}

export function serumPart(course: Course, on: Day, category: FallCategory): PartSays {
  const marker = course.markers['serum-m-protein']
  if (marker.baseline === null) return { missing: 'serum M-protein has no baseline' }
  if (atLeast(marker.baseline.value, SERUM_MEASURABLE) === 'no') return 'not-needed'
  if (isUnquantified(course, on)) return { missing: 'serum M-protein not quantified' }
  const current = currentOn(marker, on)
  if (current === null) return { missing: 'serum M-protein not measured since the baseline' }
  return says(fellBy(SERUM_FALL[category], marker.baseline.value, current.value))
}

export function urinePart(course: Course, on: Day, category: FallCategory): PartSays {
  const marker = course.markers['urine-m-protein']
  const { baseline } = marker
  if (baseline !== null && atLeast(baseline.value, URINE_MEASURABLE) === 'no') return 'not-needed'
  const current =
    baseline === null
      ? (marker.samples.findLast((sample) => sample.on <= on && sample.on > (course.line?.start ?? on)) ?? null)
      : currentOn(marker, on)
  if (current === null) return { missing: 'urine not collected' }
  const limit = URINE_LIMIT[category]
  if (limit !== undefined && below(current.value, limit) === 'certain') return 'met'
  if (category === 'VGPR') return 'not-met'
  if (baseline === null) return { missing: 'urine not collected at baseline' }
  return says(fellBy(category === 'PR' ? 90 : 50, baseline.value, current.value))
}

/** Only where neither serum nor urine is measurable. The VGPR limit of 90 % is that of IMWG 2016 for light-chain-only disease, from memory. */
export function lightChainPart(course: Course, on: Day, category: FallCategory): PartSays {
  const { baseline } = course.markers.dflc
  if (!course.measurableBy.includes('light-chain') || course.measurableBy.length > 1 || baseline === null) return 'not-needed'
  const current = currentOn(course.markers.dflc, on)
  const fall = DFLC_FALL[category]
  if (current === null) return { missing: 'free light chains not measured since the baseline' }
  return says(fall !== undefined && fellBy(fall, baseline.value, current.value))
}

/** Only where nothing else is measurable, and from 30 % on. `baseline` and `current` are marrow percentages. */
export function marrowPart(baseline: Interval | null, current: Interval | null, category: FallCategory): PartSays {
  if (baseline === null || atLeast(baseline, MARROW_MEASURABLE) !== 'certain') return { missing: 'marrow below 30 % at baseline' }
  if (current === null) return { missing: 'marrow not examined since the baseline' }
  return says(category === 'PR' && fellBy(50, baseline, current))
}
