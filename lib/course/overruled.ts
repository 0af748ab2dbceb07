import type { CourseEvent, SpokenChange } from '../results/index.ts'

/** What intake tells and does not count, because a physician said otherwise. `since`: it came after that was said. */
export interface Overruled {
  readonly event: CourseEvent
  readonly by: SpokenChange
  readonly since: boolean
}

// Two events tell the same of the course where these agree: the chains of a diagnosis are no matter of its phase.
function textOf(event: CourseEvent): string {
  if (event.event === 'diagnosis' || event.event === 'phase') return JSON.stringify([event.phase, event.on])
  if (event.event === 'line-start') return JSON.stringify([event.event, event.line, event.on, event.regimen, event.intent])
  return JSON.stringify(event.event === 'line-end' ? [event.event, event.line, event.on] : event)
}

/** True where two events say the same of a phase or line. */
export function tellsAlike(a: CourseEvent, b: CourseEvent): boolean {
  return textOf(a) === textOf(b)
}

/** True where intake had told this already when the change was made. */
export function isTold({ told }: SpokenChange, event: CourseEvent): boolean {
  return told.some((one) => tellsAlike(one, event))
}
