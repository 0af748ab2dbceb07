import { type Finding, GROUP_WORDS, ruleTitle, says, type Window } from '../rules/index.ts'
import { compareDays, type Day } from '../time/index.ts'
import { firstDueOn, type Placed } from './urgency.ts'

/** What the reason for a place asks of an assessment. */
export interface Explained extends Placed {
  readonly course: Placed['course'] & { readonly phase: { readonly phase: string } | null; readonly leftOn: Day | null }
  readonly answers: ReadonlyMap<Finding, { readonly bringBackOn: Day }>
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

/** What waits for its day, in words, the soonest first; empty where no review answers anything. */
function answered({ answers }: Explained): string {
  const told = [...answers].toSorted(([, a], [, b]) => compareDays(a.bringBackOn, b.bringBackOn))
  return told.map(([{ rule }, { bringBackOn }]) => ` Answered: ${ruleTitle(rule)}; comes back on ${bringBackOn}.`).join('')
}

/**
 * Why a patient stands where they stand: what the finding at the top says, how soon to look and since when it is open; else what is due next, and what was
 * answered and comes back.
 */
export function whySentence(assessment: Explained): string {
  const top = assessment.open[0]
  return top === undefined ? `${onSchedule(assessment)}${answered(assessment)}` : `${says(top)} Look ${WHEN[top.window]}; open since ${top.since}.`
}
