import type { Care, CourseChangeOf, CourseEventOf } from '../results/index.ts'
import { compareDays } from '../time/index.ts'
import type { PhaseSpan, TreatmentLine } from './course.ts'
import { isActive } from './phases.ts'

/**
 * Treatment lines, oldest first. Starts recorded under one number are one line: it begins with the first of them and has the regimen of the
 * last; an end counts when no start of the line comes after it. Both lists of events are in order.
 */
export function treatmentLines(starts: readonly CourseEventOf<'line-start'>[], ends: readonly CourseEventOf<'line-end'>[]): readonly TreatmentLine[] {
  const lines = new Map<number, TreatmentLine>()
  for (const { line: number, on, regimen, intent } of starts) {
    const end = ends.findLast((event) => event.line === number && event.on >= on)?.on ?? null
    lines.set(number, { number, start: lines.get(number)?.start ?? on, end, regimen, intent })
  }
  return [...lines.values()].sort((a, b) => compareDays(a.start, b.start) || a.number - b.number)
}

/**
 * The care a physician named, where it decides: the last one, unless the line last started began or ended after it. Null where the lines decide.
 */
export function namedCare(line: TreatmentLine | null, cares: readonly CourseChangeOf<'care-changed'>[]): CourseChangeOf<'care-changed'> | null {
  const last = cares.at(-1) ?? null
  const lineSays = line === null ? null : (line.end ?? line.start)
  return last === null || (lineSays !== null && lineSays > last.began) ? null : last
}

/** The care a patient with active disease is in, as a physician named it or from the line last started; null in other phases. */
export function careOf(phase: PhaseSpan | null, line: TreatmentLine | null, named: CourseChangeOf<'care-changed'> | null): Care | null {
  if (phase === null || !isActive(phase.phase)) return null
  if (named !== null) return named.care
  if (line === null || line.end !== null) return 'off-treatment'
  return line.intent === 'maintenance' ? 'maintenance' : 'on-treatment'
}
