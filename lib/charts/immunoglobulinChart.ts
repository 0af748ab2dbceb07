import type { Course, Immunoglobulin } from '../course/index.ts'
import { immunoglobulinLevel } from '../rules/index.ts'
import { bandsOf } from './bands.ts'
import { breaksOf } from './breaks.ts'
import type { ChartPlan } from './chart.ts'
import { drawnAt } from './label.ts'
import { type ChartMark, levelText, lowestMarksOf, markAt } from './marks.ts'
import { chartPoints } from './points.ts'
import { comparedSentence, marksSentence } from './sentence.ts'
import { tableOf } from './table.ts'
import type { Span } from './timeAxis.ts'
import { linearAxis } from './valueAxis.ts'

// Progression is marked only where pd-serum runs on this series: where electrophoresis did not measure the protein at baseline.
function progressionMarks(course: Course, { lowest, unit }: Immunoglobulin): readonly ChartMark[] {
  const last = lowest.at(-1) ?? null
  const level = last === null ? null : immunoglobulinLevel(course, drawnAt(last.value).at)
  if (last === null || level === null) return []
  return [markAt('criterion', level.at, last.sample.on, course.today, levelText('progression', { ...level, low: false }, unit))]
}

/** The quantitative immunoglobulin of the class of the M-protein, under its own title: it is never drawn with electrophoresis. */
export function immunoglobulinChart(course: Course, of: Immunoglobulin, span: Span): ChartPlan {
  const { samples, unit, lowest } = of
  const name = `Ig${course.heavyChain}`
  const title = `Quantitative ${name}`
  const marks = [...lowestMarksOf(of, course.today), ...progressionMarks(course, of)]
  const points = chartPoints(samples)
  const current = samples.at(-1)
  const compared = current === undefined ? '' : comparedSentence(title, current, lowest.at(-1)?.sample ?? null, 'lowest', unit)
  return {
    id: 'immunoglobulin',
    title,
    unit,
    ...span,
    ...linearAxis([...points.map((point) => point.y), ...marks.map((mark) => mark.y)], true),
    series: [{ name: title, points, breaks: breaksOf(samples) }],
    bands: bandsOf(course),
    marks,
    table: tableOf([{ name: title, unit, samples: course.samplesOf(of.name) }]),
    sentence: `${compared}${marksSentence(marks, ['criterion', 'lowest-confirmed'])} It includes normal ${name} and is never compared with electrophoresis.`,
  }
}
