import type { Course } from '../../course/index.ts'
import { criterionFor } from '../../rules/index.ts'
import type { ChartPlan } from '../chart.ts'
import { drawnAt } from '../label.ts'
import { differenceEvent } from '../lightChainChart.ts'
import { type ChartMark, levelText, lowestMarks, markAt } from '../marks.ts'
import { comparedSentence, marksSentence } from '../sentence.ts'
import { type Trend, trendOf } from '../trend.ts'

/** dFLC drawn by itself: its own lowest value and criterion have a place here, which they have not on an axis of kappa and lambda. */
export interface DifferenceDrawing {
  readonly marks: readonly ChartMark[]
  readonly trends: readonly Trend[]
  readonly sentence: string
}

function criterionMarks(course: Course): ChartPlan['marks'] {
  const { lowest, unit } = course.markers.dflc
  const last = lowest.at(-1) ?? null
  const criterion = last === null ? null : criterionFor(course, 'dflc', drawnAt(last.value).at)
  if (last === null || criterion === null) return []
  return [markAt('criterion', criterion.at, last.sample.on, course.today, levelText(differenceEvent(course), criterion, unit))]
}

/** Null where the involved chain is not known or no sample has both chains. */
export function differenceDrawing(course: Course): DifferenceDrawing | null {
  const { samples, lowest, unit } = course.markers.dflc
  const current = samples.at(-1)
  if (current === undefined) return null
  const marks = [...lowestMarks(course, 'dflc'), ...criterionMarks(course)]
  const trend = trendOf(course, 'dflc', 'dFLC', true)
  return {
    marks,
    trends: trend === null ? [] : [trend],
    sentence: `${comparedSentence('dFLC', current, lowest.at(-1)?.sample ?? null, 'lowest', unit)}${marksSentence(marks, ['criterion', 'lowest-confirmed'])}`,
  }
}
