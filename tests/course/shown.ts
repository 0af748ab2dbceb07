import type { Course, Mark, Marker, MarkerName } from '../../lib/course/index.ts'
import { traceCourse } from '../../lib/course/index.ts'
import { day } from '../../lib/time/index.ts'
import { decimalText, type Interval } from '../../lib/units/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** An interval as text: "14.2", "[0, 1]", "[5000, ...". */
export function shownInterval(of: Interval | null | undefined): string | null {
  if (of === null || of === undefined) return null
  if (of.high?.eq(of.low)) return decimalText(of.low)
  return of.high === null ? `[${decimalText(of.low)}, ...` : `[${decimalText(of.low)}, ${decimalText(of.high)}]`
}

export function shownMark(mark: Mark | null | undefined): string | null {
  return mark === null || mark === undefined ? null : `${shownInterval(mark.value)} of ${mark.sample.on}`
}

export function shownWindow(marker: Marker): string[] {
  return marker.window.map((sample) => `${sample.on} ${shownInterval(sample.value)}`)
}

/** Everything of a course that must not depend on order, unit or repetition: values as text, samples by day. */
export function keptOf(course: Course): unknown {
  const marker = (name: MarkerName) => {
    const { samples, window, lowest, lowestConfirmed } = course.markers[name]
    return {
      samples: samples.map(({ on, value, words, comparator, laboratory, method }) => [
        on,
        shownInterval(value),
        words,
        comparator,
        laboratory,
        method,
      ]),
      window: window.length,
      lowest: lowest.map(shownMark),
      lowestConfirmed: lowestConfirmed.map(shownMark),
    }
  }
  const names = Object.keys(course.markers) as MarkerName[]
  const { phase, phases, diagnosedOn, care, lines, heavyChain, involved, measurableBy, imaging, boneAgents, leftOn, hasResults } = course
  const marrow = course.marrow.map((sample) => ({ ...sample, percent: shownInterval(sample.percent) }))
  const markers = Object.fromEntries(names.map((name) => [name, marker(name)]))
  return { phase, phases, diagnosedOn, care, lines, heavyChain, involved, measurableBy, imaging, boneAgents, leftOn, hasResults, marrow, markers }
}

/** The course of a history in words on a day (2030-01-01 when left out). */
export function courseOf(words: HistoryWords, today = '2030-01-01'): Course {
  return traceCourse(history(words), day(today))
}
