import type { Course, Marker, Measurement } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimal, isExact } from '../units/index.ts'
import { type Condition, conditionsOn } from './completeness.ts'
import { marrowSeries } from './marrowSeries.ts'
import { progressedOn } from './progressed.ts'
import { currentOn, type FallCategory, lightChainPart, marrowPart, type PartSays, serumPart, urinePart } from './responsePart.ts'

export const FALL_CATEGORIES = ['VGPR', 'PR', 'MR'] as const satisfies readonly FallCategory[]

/** One part of the response that rests on how far a value fell. */
export interface FallPart {
  readonly part: 'serum M-protein' | 'urine M-protein' | 'dFLC' | 'marrow plasma cells'
  readonly unit: string
  readonly baseline: Measurement | null
  readonly current: Measurement | null
  /** Fall in per cent of the baseline, exact to twenty decimals; negative where the value rose. Null where either is a limit or missing, or the baseline 0. */
  readonly fall: Decimal | null
  /** What it says of each category. */
  readonly says: Readonly<Record<FallCategory, PartSays>>
}

/** Every part of the response as it stands on a day. */
export interface ResponseParts {
  readonly falls: readonly FallPart[]
  /** What a complete response asks for. */
  readonly complete: readonly Condition[]
  /** Progression by the last samples or by lesions: it outweighs every part. */
  readonly progressed: boolean
}

const HUNDRED = decimal('100')

function fallOf(baseline: Measurement | null, current: Measurement | null): Decimal | null {
  if (baseline === null || current === null || !isExact(baseline.value) || !isExact(current.value) || baseline.value.low.lte(0)) return null
  return baseline.value.low.minus(current.value.low).times(HUNDRED).div(baseline.value.low)
}

type Ask = (course: Course, on: Day, category: FallCategory) => PartSays

function ofMarker(course: Course, on: Day, part: FallPart['part'], marker: Marker, asks: Ask): FallPart {
  const { baseline, unit } = marker
  const current = currentOn(marker, on)
  const says = { VGPR: asks(course, on, 'VGPR'), PR: asks(course, on, 'PR'), MR: asks(course, on, 'MR') }
  return { part, unit, baseline, current, fall: fallOf(baseline, current), says }
}

function ofMarrow(course: Course, on: Day): FallPart {
  const { window } = marrowSeries(course)
  const baseline = window[0] ?? null
  const last = window.findLast((sample) => sample.on <= on) ?? null
  const current = last === baseline ? null : last
  const asks = (category: FallCategory) => marrowPart(baseline?.value ?? null, current?.value ?? null, category)
  const says = { VGPR: asks('VGPR'), PR: asks('PR'), MR: asks('MR') }
  return { part: 'marrow plasma cells', unit: '%', baseline, current, fall: fallOf(baseline, current), says }
}

/** The parts `assessResponse` weighs, for whoever wants to see them; null where there is no active line to judge. */
export function responseParts(course: Course, on: Day = course.today): ResponseParts | null {
  if (course.line === null || course.care === null) return null
  const { 'serum-m-protein': serum, 'urine-m-protein': urine, dflc } = course.markers
  const falls = course.measurableBy.includes('marrow')
    ? [ofMarrow(course, on)]
    : [
        ofMarker(course, on, 'serum M-protein', serum, serumPart),
        ofMarker(course, on, 'urine M-protein', urine, urinePart),
        ofMarker(course, on, 'dFLC', dflc, lightChainPart),
      ]
  return { falls, complete: conditionsOn(course, on), progressed: progressedOn(course, on) }
}
