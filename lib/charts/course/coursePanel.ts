import type { Course, Mark, Marker, MarkerName, Sample } from '../../course/index.ts'
import type { Analyte, History } from '../../results/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import type { ChartPlan } from '../chart.ts'
import { drawingNumber, drawnAt, keptLabel } from '../label.ts'
import { confirmedMarks } from './confirmedMark.ts'
import type { CoursePanel } from './coursePlan.ts'
import { courseSeries } from './coursePoints.ts'
import type { EarlierVersion } from './earlier.ts'
import { leftOutOf } from './leftOut.ts'

/** What the panels of one patient are made of. */
export interface PanelSource {
  readonly course: Course
  readonly known: Pick<History, 'results' | 'decisions'>
  /** Versions a correction has replaced. */
  readonly earlier: readonly EarlierVersion[]
  readonly from: Day
}

/** One panel before its days are counted. */
export interface PanelWords extends Pick<CoursePanel, 'id' | 'title' | 'name' | 'unit' | 'fromZero' | 'sentence'> {
  readonly marks: ChartPlan['marks']
  readonly trends: NonNullable<ChartPlan['trends']>
  readonly series: readonly { readonly name: string; readonly samples: readonly Sample[] }[]
  /** The series changes are counted in, from its lowest confirmed value; null where the panel is held against something else. */
  readonly counted: { readonly of: MarkerName | 'immunoglobulin'; readonly marker: Marker<string> } | null
  /** The tests as reported: values of them that count no more stand beside those that do. */
  readonly tests: readonly Analyte[]
}

function referenceOf(mark: Mark | null, unit: string, from: Day): CoursePanel['reference'] {
  if (mark === null || mark.value.high === null) return null
  const label = `${keptLabel(mark.sample)}${mark.sample.words === null ? ` ${unit}` : ''}`
  return { day: daysBetween(from, mark.sample.on), at: drawingNumber(drawnAt(mark.value).at), label }
}

/** A fitted number as a picture needs it: four digits are finer than a pixel. */
const drawn = (value: number): number => Number(value.toPrecision(4))

function curvesOf(trends: PanelWords['trends'], from: Day): CoursePanel['trends'] {
  return trends
    .filter(({ curve }) => curve.length > 0)
    .map(({ name, curve }) => ({
      name,
      curve: curve.map(({ on, y, low, high }) => ({
        day: daysBetween(from, on),
        at: drawn(y),
        low: low === null ? null : drawn(low),
        high: high === null ? null : drawn(high),
      })),
    }))
}

/** One panel on the shared axis: its values, what they are held against, and what was taken out of it. */
export function coursePanel({ course, known, earlier, from }: PanelSource, words: PanelWords): CoursePanel {
  const { id, title, name, unit, fromZero, sentence, counted, tests } = words
  const reference = counted?.marker.lowestConfirmed.at(-1) ?? null
  const marks = words.marks.map(({ kind, from: since, y, label }) => ({ kind, day: daysBetween(from, since), at: y, label }))
  return {
    ...{ id, title, name, unit, fromZero, sentence },
    series: words.series.map((one) => courseSeries(one.name, one.samples, { from, unit, reference, earlier })),
    marks: counted === null ? marks : [...marks, ...confirmedMarks(course, counted.of, counted.marker, from)],
    leftOut: leftOutOf(known, earlier, tests, { from, to: course.today }),
    reference: referenceOf(reference, unit, from),
    trends: curvesOf(words.trends, from),
  }
}
