import type { CourseEventOf } from '../results/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import { exactly, type Interval, largerInterval } from '../units/index.ts'
import type { MarrowSample, Sample } from './course.ts'

function higher(a: Interval | null, b: Interval | null): Interval | null {
  return a === null ? b : b === null ? a : largerInterval(a, b)
}

function joined(a: MarrowSample, b: MarrowSample): MarrowSample {
  return {
    on: a.on,
    percent: higher(a.percent, b.percent),
    abnormalities: [...new Set([...a.abnormalities, ...b.abnormalities])].sort(),
    mrd: a.mrd === 'positive' || b.mrd === 'positive' ? 'positive' : (a.mrd ?? b.mrd),
  }
}

/**
 * Marrow examinations, oldest first, one a day, from marrow events and laboratory results. Where aspirate and biopsy of one day differ the higher
 * percentage counts (Rajkumar, Lancet Oncol 2014;15:e538); of MRD findings the positive one.
 */
export function marrowSamples(events: readonly CourseEventOf<'marrow'>[], results: readonly Sample[]): readonly MarrowSample[] {
  const said: MarrowSample[] = [
    ...events.map(({ on, plasmaCellsPercent, abnormalities, mrd }) => ({
      on,
      percent: plasmaCellsPercent === null ? null : exactly(plasmaCellsPercent),
      abnormalities,
      mrd,
    })),
    ...results.map(({ on, value }) => ({ on, percent: value, abnormalities: [], mrd: null })),
  ]
  const byDay = new Map<Day, MarrowSample>()
  for (const sample of said) {
    const other = byDay.get(sample.on)
    byDay.set(sample.on, other === undefined ? sample : joined(other, sample))
  }
  return [...byDay.values()].sort((a, b) => compareDays(a.on, b.on))
}
