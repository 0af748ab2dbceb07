import type { Analyte, LabResult } from '../results/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import type { Sample } from './course.ts'
import { isSample, outranks } from './oneADay.ts'
import { sampleFrom } from './sample.ts'

/** The samples of every analyte, oldest first, at most one a day. Withdrawn results and results without a value make none. */
export function samplesByAnalyte(results: readonly LabResult[]): ReadonlyMap<Analyte, readonly Sample[]> {
  const counting = new Map<Analyte, Map<Day, LabResult>>()
  for (const result of results) {
    if (!isSample(result)) continue
    let days = counting.get(result.analyte)
    if (days === undefined) {
      days = new Map()
      counting.set(result.analyte, days)
    }
    const rival = days.get(result.collected.on)
    if (rival === undefined || outranks(result, rival) > 0) days.set(result.collected.on, result)
  }
  const samples = new Map<Analyte, readonly Sample[]>()
  for (const [analyte, days] of counting) {
    samples.set(analyte, [...days.values()].sort((a, b) => compareDays(a.collected.on, b.collected.on)).map(sampleFrom))
  }
  return samples
}
