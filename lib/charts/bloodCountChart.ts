import { type Course, hasNumber } from '../course/index.ts'
import { DANGEROUS_COUNTS } from '../rules/index.ts'
import { decimal } from '../units/index.ts'
import { bandsOf } from './bands.ts'
import { breaksOf } from './breaks.ts'
import type { ChartPlan } from './chart.ts'
import type { Count } from './countsShown.ts'
import { type ChartMark, laboratoryMark, levelText, markAt } from './marks.ts'
import { chartPoints } from './points.ts'
import { comparedSentence } from './sentence.ts'
import { tableOf } from './table.ts'
import type { Span } from './timeAxis.ts'
import { linearAxis } from './valueAxis.ts'

const TITLES: Readonly<Record<Count, string>> = { neutrophils: 'Neutrophils', platelets: 'Platelets' }
const UNIT = 'x 10^9/L'

/** The chart of one count: its values, the laboratory's lower limit, danger. */
export function bloodCountChart(course: Course, id: Count, span: Span): ChartPlan {
  const title = TITLES[id]
  const samples = course.samplesOf(id).filter(hasNumber)
  const points = chartPoints(samples)
  const danger = decimal(DANGEROUS_COUNTS[id])
  const marks: readonly ChartMark[] = [
    ...laboratoryMark(samples, 'low', UNIT, span.from, span.to),
    markAt('limit', danger, span.from, span.to, levelText('danger', { at: danger, strict: true, low: true }, UNIT)),
  ]
  const [before, current] = [samples.at(-2) ?? null, samples.at(-1)]
  return {
    id,
    title,
    unit: UNIT,
    ...span,
    ...linearAxis(
      [...points, ...marks].map(({ y }) => y),
      false,
    ),
    series: [{ name: title, points, breaks: breaksOf(samples) }],
    bands: bandsOf(course),
    marks,
    table: tableOf([{ name: title, unit: UNIT, samples: course.samplesOf(id) }]),
    sentence:
      current === undefined ? `No number of ${id} is recorded.` : comparedSentence(`The count of ${id}`, current, before, 'sample before', UNIT),
  }
}
