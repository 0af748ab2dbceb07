import type { ChangeContent, CourseChange, CourseEvent } from '../../lib/results/index.ts'
import { day } from '../../lib/time/index.ts'

/** A change of the course as it is kept, said on a day; `told` is what intake had told of the same thing by then. */
export function courseChange(id: number, on: string, content: ChangeContent, told: readonly CourseEvent[] = []): CourseChange {
  return { id, on: day(on), at: `${on}T10:00:00.000Z`, by: 'a physician', text: 'Typed by a person.', told, ...content }
}

export const phaseEvent = (on: string, phase: 'mgus' | 'smouldering' | 'active' | 'plasma-cell-leukaemia'): CourseEvent => ({
  event: 'phase',
  on: day(on),
  phase,
})

export const startEvent = (on: string, line: number, regimen: readonly string[] = ['bortezomib']): CourseEvent => ({
  event: 'line-start',
  on: day(on),
  line,
  regimen,
  intent: null,
})

export const endEvent = (on: string, line: number): CourseEvent => ({ event: 'line-end', on: day(on), line })
