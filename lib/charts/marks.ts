import type { Course, Mark, Marker, MarkerName, Measurement } from '../course/index.ts'
import { criterionFor } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { type Decimal, decimalText } from '../units/index.ts'
import type { ChartPlan } from './chart.ts'
import { drawingNumber, drawnAt, keptLabel } from './label.ts'

export type ChartMark = ChartPlan['marks'][number]

/** A horizontal mark from a day to the end of the axis. */
export function markAt(kind: ChartMark['kind'], at: Decimal, from: Day, to: Day, label: string): ChartMark {
  return { kind, from, to, y: drawingNumber(at), label }
}

/** "progression at 15 g/L"; "above" where the level itself does not count yet. */
export function levelText(
  words: string,
  { at, strict, low }: { readonly at: Decimal; readonly strict: boolean; readonly low: boolean },
  unit: string,
): string {
  const side = low ? (strict ? 'below' : 'at or below') : strict ? 'above' : 'at'
  return `${words} ${side} ${decimalText(at)} ${unit}`
}

/** The lowest value a next sample will be held against, and the one two samples reached where it is another. */
export function lowestMarks(course: Course, name: MarkerName): readonly ChartMark[] {
  return lowestMarksOf(course.markers[name], course.today)
}

/** The same for any series that is followed like a marker. */
export function lowestMarksOf({ lowest, lowestConfirmed, unit }: Marker<string>, today: Day): readonly ChartMark[] {
  const marks: ChartMark[] = []
  const add = (kind: 'lowest' | 'lowest-confirmed', words: string, { sample, value }: Mark) =>
    marks.push(markAt(kind, drawnAt(value).at, sample.on, today, `${words} ${keptLabel(sample)}${sample.words === null ? ` ${unit}` : ''}`))
  const [last, confirmed] = [lowest.at(-1) ?? null, lowestConfirmed.at(-1) ?? null]
  if (last !== null) add('lowest', 'lowest', last)
  if (confirmed !== null && last !== null && !drawnAt(confirmed.value).at.eq(drawnAt(last.value).at))
    add('lowest-confirmed', 'lowest confirmed', confirmed)
  return marks
}

/** Where progression begins above the lowest value, from the day that value was set; none outside active disease. */
export function progressionMark(course: Course, name: MarkerName): ChartMark | null {
  const marker = course.markers[name]
  const lowest = marker.lowest.at(-1) ?? null
  if (lowest === null) return null
  const criterion = criterionFor(course, name, drawnAt(lowest.value).at)
  return criterion === null
    ? null
    : markAt('criterion', criterion.at, lowest.sample.on, course.today, levelText('progression', criterion, marker.unit))
}

/** The laboratory's own limit, as the latest sample printed it. */
export function laboratoryMark(samples: readonly Measurement[], side: 'low' | 'high', unit: string, from: Day, to: Day): readonly ChartMark[] {
  const own = samples.at(-1)?.results[0]
  const limit = (side === 'low' ? own?.referenceLow : own?.referenceHigh) ?? null
  return limit === null
    ? []
    : [markAt('limit', limit.kept, from, to, `laboratory's ${side === 'low' ? 'lower' : 'upper'} limit ${decimalText(limit.kept)} ${unit}`)]
}
