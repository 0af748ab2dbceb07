import { compareDays, type StoodOn } from '../../look/index.ts'
import type { FollowUpPlan } from '../../plan/index.ts'
import type { History } from '../../results/index.ts'
import { type Finding, ruleTitle } from '../../rules/index.ts'
import { assess } from '../../standing/index.ts'
import { type Day, parseDay } from '../../time/index.ts'
import type { CompareWish, StoodView, TwoDaysView } from './views.ts'

function stoodView({ line, phase, ...rest }: StoodOn): StoodView {
  const told = line === null ? null : `line ${line.number} since ${line.start}${line.end === null ? '' : `, ended ${line.end}`}`
  return { ...rest, phase: phase ?? 'unrecorded', line: told }
}

function findingSays({ rule, state, window, facts }: Finding): string {
  const subject = facts.group ?? facts.rule ?? facts.specimen
  const about = subject === undefined ? '' : `, ${subject.replaceAll('-', ' ')}`
  return `${ruleTitle(rule)}${about} (${state === 'met' ? '' : `${state}, `}${window.replaceAll('-', ' ')})`
}

const told = (findings: readonly Finding[]): readonly string[] => [...new Set(findings.map(findingSays))]

/** Two days of a patient side by side, each assessed by the plan in force on it. A wish that names no two days by today is told why. */
export function twoDaysView(history: History, planOn: (on: Day) => FollowUpPlan, today: Day, wish: CompareWish): TwoDaysView {
  const [one, other] = [parseDay(wish.from), parseDay(wish.to)]
  if (one === null || other === null) return { problem: 'Both days are asked for, each as year-month-day.' }
  if (one > today || other > today) return { problem: `A day after ${today} cannot be compared: nothing is known of it.` }
  if (one === other) return { problem: 'These are the same day.' }
  const [earlier, later] = one < other ? [one, other] : [other, one]
  const { from, to, markers, appeared, ended, stayed } = compareDays(assess(history, planOn(earlier), earlier), assess(history, planOn(later), later))
  return {
    problem: null,
    from: stoodView(from),
    to: stoodView(to),
    markers,
    appeared: told(appeared),
    ended: told(ended),
    stayed: told(stayed),
  }
}
