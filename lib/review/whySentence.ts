import { GROUP_WORDS, says, type Window } from '../rules/index.ts'
import type { Day } from '../time/index.ts'
import { firstDueOn, type Placed } from './urgency.ts'

/** What the reason for a place asks of an assessment. */
export interface Explained extends Placed {
  readonly course: Placed['course'] & { readonly phase: { readonly phase: string } | null; readonly leftOn: Day | null }
}

const WHEN: Readonly<Record<Window, string>> = {
  'same-day': 'on the same day',
  'within-7-days': 'within 7 days',
  'within-30-days': 'within 30 days',
  'next-visit': 'at the next visit',
  'on-schedule': 'on schedule',
}

function groupWords(group: string): string {
  return (GROUP_WORDS as Readonly<Record<string, string>>)[group] ?? group
}

function onSchedule({ course, due }: Explained): string {
  if (course.leftOn !== null) return 'No longer followed: nothing is due.'
  const next = firstDueOn(due)
  if (next === null)
    return course.phase === null
      ? 'On schedule: nothing is due, for no phase of the disease is recorded.'
      : 'On schedule: nothing is due by the plan.'
  const groups = due.filter((test) => test.dueOn === next).map((test) => groupWords(test.group))
  return `On schedule: next due ${next} (${groups.join(', ')}).`
}

/** Why a patient stands where they stand: what the finding at the top says, how soon to look and since when it is open; else what is due next. */
export function whySentence(assessment: Explained): string {
  const top = assessment.findings[0]
  return top === undefined ? onSchedule(assessment) : `${says(top)} Look ${WHEN[top.window]}; open since ${top.since}.`
}
