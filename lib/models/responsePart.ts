import type { Course, Marker, Measurement } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { atLeast, below, decimal, type Interval } from '../units/index.ts'

/** The categories that rest on how far a value fell. */
export type FallCategory = 'VGPR' | 'PR' | 'MR'

/** What one part of the criteria says of a category; `missing` names what would be needed. */
export type PartSays = 'met' | 'not-met' | 'not-needed' | { readonly missing: string }

const HUNDRED = decimal('100')
/** What counts as measurable at baseline: serum g/L, urine mg/24 h, marrow %. */
export const SERUM_MEASURABLE = decimal('10')
export const URINE_MEASURABLE = decimal('200')
export const MARROW_MEASURABLE = decimal('30')
/** Urine, mg/24 h, below which a category is reached whatever the fall. */
export const URINE_LIMIT = { VGPR: decimal('100'), PR: decimal('200'), MR: null } as const
/** Falls from the baseline that each category asks, in per cent. */
export const SERUM_FALL = { VGPR: 90, PR: 50, MR: 25 } as const
export const URINE_FALL = { VGPR: null, PR: 90, MR: 50 } as const
export const DFLC_FALL = { VGPR: 90, PR: 50, MR: null } as const
export const MARROW_FALL = { VGPR: null, PR: 50, MR: null } as const

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
  if (limit !== null && below(current.value, limit) === 'certain') return 'met'
  const fall = URINE_FALL[category]
  if (fall === null) return 'not-met'
  if (baseline === null) return { missing: 'urine not collected at baseline' }
  return says(fellBy(fall, baseline.value, current.value))
}

/** Only where neither serum nor urine is measurable. The VGPR limit of 90 % is that of IMWG 2016 for light-chain-only disease, from memory. */
export function lightChainPart(course: Course, on: Day, category: FallCategory): PartSays {
  const { baseline } = course.markers.dflc
  if (!course.measurableBy.includes('light-chain') || course.measurableBy.length > 1 || baseline === null) return 'not-needed'
  const current = currentOn(course.markers.dflc, on)
  const fall = DFLC_FALL[category]
  if (current === null) return { missing: 'free light chains not measured since the baseline' }
  return says(fall !== null && fellBy(fall, baseline.value, current.value))
}

/** Only where nothing else is measurable, and from 30 % on. `baseline` and `current` are marrow percentages. */
export function marrowPart(baseline: Interval | null, current: Interval | null, category: FallCategory): PartSays {
  if (baseline === null || atLeast(baseline, MARROW_MEASURABLE) !== 'certain') return { missing: 'marrow below 30 % at baseline' }
  if (current === null) return { missing: 'marrow not examined since the baseline' }
  const fall = MARROW_FALL[category]
  return says(fall !== null && fellBy(fall, baseline, current))
}
