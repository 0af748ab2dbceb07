import { hasNumber, type Mark, type Sample } from '../../course/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import { breaksOf } from '../breaks.ts'
import { drawnAt, isCorrected, keptLabel } from '../label.ts'
import { changeText } from './change.ts'
import type { CoursePoint, CourseSeries } from './coursePlan.ts'
import { type EarlierVersion, placeOfSample, saidBefore } from './earlier.ts'

interface Told {
  readonly from: Day
  readonly unit: string
  /** What changes are counted from; null where none are told. */
  readonly reference: Mark | null
  readonly earlier: readonly EarlierVersion[]
}

function coursePoint(sample: Sample, { from, unit, reference, earlier }: Told): CoursePoint {
  return {
    day: daysBetween(from, sample.on),
    at: placeOfSample(sample),
    label: keptLabel(sample),
    censored: sample.value === null ? null : drawnAt(sample.value).censored,
    change: reference === null || sample.value === null ? null : changeText(sample.value, reference, unit),
    corrected: sample.results.some((result) => isCorrected({ ...sample, results: [result] })),
    was: saidBefore(sample, earlier, from),
    laboratory: sample.laboratory,
  }
}

/** Every sample of a series, those told in words without a number included, oldest first, and where its line breaks. */
export function courseSeries(name: string, samples: readonly Sample[], told: Told): CourseSeries {
  return {
    name,
    points: samples.map((sample) => coursePoint(sample, told)),
    breaks: breaksOf(samples.filter(hasNumber)).map(({ on, words, says }) => ({ day: daysBetween(told.from, on), words, says })),
  }
}
