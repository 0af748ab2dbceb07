import type { DANGEROUS_COUNTS } from '../rules/index.ts'
import type { Assessment } from '../standing/index.ts'

/** Counts that treatment lowers: no criterion speaks of them, but how far they fall decides whether it can go on. */
export type Count = keyof typeof DANGEROUS_COUNTS

const COUNTS: readonly Count[] = ['neutrophils', 'platelets']

/** Counts that were measured, of a patient who was ever treated or in whom a danger of them is shown. (ours) */
export function countsShown({ course, findings }: Pick<Assessment, 'course' | 'findings'>): readonly Count[] {
  const isInDanger = (count: Count) => findings.some(({ rule }) => rule === `danger-${count}`)
  return COUNTS.filter((count) => course.samplesOf(count).length > 0 && (course.lines.length > 0 || isInDanger(count)))
}
