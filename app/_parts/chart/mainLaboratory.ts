import type { ChartPlan } from '../../../lib/charts/index.ts'

/** The laboratory most values of a patient come from, the earlier met of two as frequent; null where none is named. */
export function mainLaboratory(charts: readonly ChartPlan[]): string | null {
  const counts = new Map<string, number>()
  for (const { laboratory } of charts.flatMap(({ series }) => series.flatMap(({ points }) => points))) {
    if (laboratory !== null) counts.set(laboratory, (counts.get(laboratory) ?? 0) + 1)
  }
  return [...counts].reduce<readonly [string, number] | null>((most, one) => (most === null || one[1] > most[1] ? one : most), null)?.[0] ?? null
}
