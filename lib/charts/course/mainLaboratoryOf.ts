import type { CoursePlan } from './coursePlan.ts'

/** The laboratory most values come from, the earlier met of two as frequent; null where none is named. It is filled in the picture and not named elsewhere. */
export function mainLaboratoryOf({ panels }: Pick<CoursePlan, 'panels'>): string | null {
  const counts = new Map<string, number>()
  for (const { laboratory } of panels.flatMap(({ series }) => series.flatMap(({ points }) => points))) {
    if (laboratory !== null) counts.set(laboratory, (counts.get(laboratory) ?? 0) + 1)
  }
  return [...counts].reduce<readonly [string, number] | null>((most, one) => (most === null || one[1] > most[1] ? one : most), null)?.[0] ?? null
}
