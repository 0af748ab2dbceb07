import { baselineAt, type Course, openingOf } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { completenessOn } from './completeness.ts'
import type { ResponseCategory } from './model.ts'
import { progressedOn } from './progressed.ts'
import { type FallCategory, lightChainPart, marrowPart, type PartSays, serumPart, urinePart } from './responsePart.ts'

/** The response on one day, before anyone asks whether it was seen twice. */
export interface ResponseOn {
  readonly category: ResponseCategory | null
  /** What was needed and is missing. */
  readonly missing: readonly string[]
}

function marrowOnly(course: Course, on: Day, category: FallCategory): PartSays {
  const counted = course.marrow.filter((sample) => sample.percent !== null)
  const at = baselineAt(counted, openingOf(course.phase, course.line, course.diagnosedOn, course.thresholds))
  const baseline = at === null ? undefined : counted[at]
  const current = counted.findLast((sample) => sample.on <= on && baseline !== undefined && sample.on > baseline.on)
  return marrowPart(baseline?.percent ?? null, current?.percent ?? null, category)
}

function partsOn(course: Course, on: Day, category: FallCategory): readonly PartSays[] {
  if (course.measurableBy.includes('marrow')) return [marrowOnly(course, on, category)]
  return [serumPart(course, on, category), urinePart(course, on, category), lightChainPart(course, on, category)]
}

function missingOf(parts: readonly PartSays[]): readonly string[] {
  return parts.flatMap((part) => (typeof part === 'object' ? [part.missing] : []))
}

/** The best category that nothing contradicts and at least one part shows; stable disease where none is. */
function byFall(course: Course, on: Day): ResponseOn {
  for (const category of ['VGPR', 'PR', 'MR'] as const) {
    const parts = partsOn(course, on, category)
    if (!parts.includes('not-met') && parts.includes('met')) return { category, missing: missingOf(parts) }
  }
  const parts = partsOn(course, on, 'MR')
  return { category: parts.includes('not-met') ? 'SD' : null, missing: missingOf(parts) }
}

/** IMWG 2016 response of the current line on a sample day, baseline against the values current then. */
export function responseOn(course: Course, on: Day): ResponseOn {
  if (progressedOn(course, on)) return { category: 'PD', missing: [] }
  const completeness = completenessOn(course, on)
  if (completeness.complete !== 'open' && completeness.complete !== 'no') return { category: completeness.complete, missing: [] }
  const fall = byFall(course, on)
  // The parts a complete response lacks are worth naming only where nothing else stands against one.
  if (completeness.complete !== 'open' || fall.category !== 'VGPR') return fall
  return { category: 'VGPR', missing: [...new Set([...fall.missing, ...completeness.missing])] }
}
