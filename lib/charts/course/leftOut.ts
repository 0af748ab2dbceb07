import { type Analyte, exclusionsOf, type History, type LabResult } from '../../results/index.ts'
import type { Day } from '../../time/index.ts'
import type { CoursePanel } from './coursePlan.ts'
import { type EarlierVersion, replacedOn } from './earlier.ts'

/** Values of these tests that a person took out as spurious or a laboratory withdrew. They count for nothing and stay visible. Oldest first. */
export function leftOutOf(
  known: Pick<History, 'results' | 'decisions'>,
  earlier: readonly EarlierVersion[],
  analytes: readonly Analyte[],
  { from, to }: { readonly from: Day; readonly to: Day },
): CoursePanel['leftOut'] {
  const excluded = exclusionsOf(known.decisions)
  const isShown = ({ analyte, collected, value }: LabResult) =>
    analytes.includes(analyte) && collected.on >= from && collected.on <= to && value.kind !== 'none'
  const taken = known.results.filter((result) => isShown(result) && excluded.has(result.id))
  const withdrawn = earlier.filter(({ result, replacedBy }) => replacedBy.withdrawn && isShown(result))
  return [
    ...taken.map((result) => ({ ...replacedOn(from, result), why: 'excluded' as const })),
    ...withdrawn.map(({ result }) => ({ ...replacedOn(from, result), why: 'withdrawn' as const })),
  ].toSorted((a, b) => a.day - b.day)
}
