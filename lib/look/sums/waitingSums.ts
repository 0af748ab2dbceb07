import { GROUP_WORDS, ruleTitle } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import { daysBetween } from '../../time/index.ts'
import { decimal } from '../../units/index.ts'
import type { Arithmetic } from './arithmetic.ts'
import { exactStep } from './steps.ts'

/** How late each test is and how long its grace lasts. */
export function lateSums({ due, asOf }: Assessment): readonly Arithmetic[] {
  return due
    .filter(({ daysLate }) => daysLate > 0)
    .map(({ group, dueOn, graceEndsOn, daysLate, because }) => {
      const late = exactStep('Days late', `days(${dueOn}, ${asOf})`, decimal(daysLate), 'days')
      const grace = exactStep('Days of grace', `days(${dueOn}, ${graceEndsOn})`, decimal(daysBetween(dueOn, graceEndsOn)), 'days')
      return {
        id: `late-${group}`,
        name: `Days late: ${GROUP_WORDS[group]}`,
        result: `${daysLate} days`,
        from: [because, `due on ${dueOn}, grace ends on ${graceEndsOn}`],
        steps: [late, grace],
        against: `overdue after the grace: ${asOf > graceEndsOn ? 'yes' : 'no'}`,
        source: 'the clinic’s follow-up plan; grace a share of the interval (ours)',
        tellsAge: false,
      }
    })
}

/** How long the finding at the top has waited. */
export function waitingSum({ open, asOf }: Assessment): readonly Arithmetic[] {
  const [top] = open
  if (top === undefined || top.since > asOf) return []
  const days = daysBetween(top.since, asOf)
  return [
    {
      id: 'waiting',
      name: 'Waiting',
      result: `${days} ${days === 1 ? 'day' : 'days'}`,
      from: [
        `"${ruleTitle(top.rule)}", the most urgent open finding, open since ${top.since}: the first sample of the unbroken run that shows it, or the day the gap began`,
      ],
      steps: [exactStep('Days waiting', `days(${top.since}, ${asOf})`, decimal(days), 'days')],
      against: null,
      source: 'how long a finding has been open (ours)',
      tellsAge: false,
    },
  ]
}
