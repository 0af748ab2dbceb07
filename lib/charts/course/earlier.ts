import { type Sample, sampleFrom } from '../../course/index.ts'
import type { LabResult } from '../../results/index.ts'
import { type Day, daysBetween } from '../../time/index.ts'
import { drawingNumber, drawnAt, keptLabel } from '../label.ts'
import type { Replaced } from './coursePlan.ts'

/** A stored version of a result that counts no more because a later version does, and that version. */
export interface EarlierVersion {
  readonly result: LabResult
  readonly replacedBy: { readonly id: number; readonly withdrawn: boolean }
}

/** Where a sample is drawn; null where it has words and no number. */
export function placeOfSample({ value }: Sample): number | null {
  return value === null ? null : drawingNumber(drawnAt(value).at)
}

/** A result as it would stand on the axis if it counted. */
export function replacedOn(from: Day, result: LabResult): Replaced {
  const sample = sampleFrom(result)
  return { day: daysBetween(from, sample.on), at: placeOfSample(sample), label: keptLabel(sample) }
}

/** What was reported of a sample before its corrections, where it said something else; first report first. */
export function saidBefore(sample: Sample, earlier: readonly EarlierVersion[], from: Day): readonly Replaced[] {
  const [own] = sample.results
  if (own === undefined) return []
  const now = keptLabel(sample)
  return earlier
    .filter(({ replacedBy }) => replacedBy.id === own.id)
    .toSorted((a, b) => a.result.version - b.result.version)
    .map(({ result }) => replacedOn(from, result))
    .filter(({ label, day }) => label !== now || day !== daysBetween(from, sample.on))
}
