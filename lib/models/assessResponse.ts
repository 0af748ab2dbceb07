import { type Course, isActive } from '../course/index.ts'
import type { Day } from '../time/index.ts'
import { allResponseDays, assessmentDays } from './assessmentDays.ts'
import { RESPONSES, type ResponseAssessment, type ResponseCategory } from './model.ts'
import { progressionConfirmedOn } from './progressed.ts'
import { responseOn } from './responseOn.ts'

const rank = (category: ResponseCategory): number => RESPONSES.indexOf(category)

function nothing(missing: readonly string[]): ResponseAssessment {
  return { category: null, state: null, provisional: false, missing }
}

/** A complete response seen twice needs two negative immunofixations, not one that is carried forward. */
function fixationsNegative(course: Course): boolean {
  const start = course.line?.start
  const fixed = course.samplesOf('serum-immunofixation').filter((sample) => start !== undefined && sample.on > start)
  return (
    fixed.length > 1 &&
    fixed.slice(-2).every(({ results: [result] }) => result?.value.kind === 'immunofixation' && result.value.reading.reading === 'negative')
  )
}

function isConfirmed(course: Course, category: ResponseCategory, before: Day | undefined): boolean {
  if (category === 'PD') return progressionConfirmedOn(course, course.today)
  if (before === undefined) return false
  if (rank(category) <= rank('CR') && !fixationsNegative(course)) return false
  const earlier = responseOn(course, before).category
  return earlier !== null && rank(earlier) <= rank(category)
}

function whyNothing(course: Course): string {
  if (course.phase === null || !isActive(course.phase.phase)) return 'no active disease recorded'
  if (course.line === null) return 'no treatment line recorded'
  return course.measurableBy.length === 0 ? 'no measurable disease at the baseline of the line' : 'no sample since the baseline'
}

/**
 * IMWG 2016 response of the current line (Kumar, Lancet Oncol 17:e328): baseline of the line against the current values. `confirmed` when the
 * assessment before was at least as good. Where a part that was needed is missing the category is provisional and the part is named.
 */
export function assessResponse(course: Course): ResponseAssessment {
  const days = assessmentDays(course)
  if (days.length === 0) return nothing([whyNothing(course)])
  // A lesion, an immunofixation or a marrow may be later than the last measurement; they are current too.
  const { category, missing } = responseOn(course, course.today)
  if (category === null) return nothing(missing)
  const state = isConfirmed(course, category, days.at(-2)) ? 'confirmed' : 'unconfirmed'
  return { category, state, provisional: missing.length > 0, missing }
}

/** Best response of the current line on any of its sample days up to the one before the latest, seen once or twice; null without any. */
export function bestResponse(course: Course): ResponseCategory | null {
  const found = allResponseDays(course)
    .slice(0, -1)
    .map((on) => responseOn(course, on).category)
  return RESPONSES.find((category) => found.includes(category)) ?? null
}
