import { type ResponseAssessment, responseSince } from '../../models/index.ts'
import type { TestGroup } from '../../plan/index.ts'
import type { Care, Phase } from '../../results/index.ts'
import type { FindingState, RuleId, Window } from '../../rules/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import { type LeadingNow, leadingNow } from './leadingNow.ts'

/** Where a patient stands on a day, as facts: what the physician's one sentence is made of. */
export interface StandsFacts {
  readonly phase: { readonly phase: Phase; readonly since: Day } | null
  /** Null outside active disease. */
  readonly care: Care | null
  readonly line: { readonly number: number; readonly start: Day; readonly end: Day | null } | null
  readonly leftOn: Day | null
  /** Null where nothing can be said; `why` is told in active disease only. */
  readonly response: (Pick<ResponseAssessment, 'state' | 'provisional'> & { readonly category: string; readonly since: Day | null }) | null
  readonly whyNoResponse: string | null
  readonly leading: LeadingNow | null
  readonly hasResults: boolean
  readonly window: Window
  /** The open finding that decides the window, and how many more are open. */
  readonly top: { readonly rule: RuleId; readonly state: FindingState; readonly certainty: 'certain' | 'possible'; readonly more: number } | null
  readonly answered: number
  readonly nextDue: { readonly on: Day; readonly groups: readonly TestGroup[] } | null
  readonly held: number
}

function nextDue({ due }: Assessment): StandsFacts['nextDue'] {
  const [on] = due.map((test) => test.dueOn).sort()
  return on === undefined ? null : { on, groups: due.filter((test) => test.dueOn === on).map(({ group }) => group) }
}

/** The facts of one assessment. Pure. */
export function standsFacts(assessment: Assessment): StandsFacts {
  const { course, response, open, window, answers } = assessment
  const { category, state, provisional, missing } = response
  const top = open[0]
  return {
    phase: course.phase,
    care: course.care,
    line: course.care === null ? null : course.line,
    leftOn: course.leftOn,
    response: category === null ? null : { category, state, provisional, since: responseSince(course) },
    whyNoResponse: course.care === null || category !== null ? null : (missing[0] ?? null),
    leading: leadingNow(course),
    hasResults: course.hasResults,
    window,
    top: top === undefined ? null : { rule: top.rule, state: top.state, certainty: top.certainty, more: open.length - 1 },
    answered: answers.size,
    nextDue: nextDue(assessment),
    held: course.held.length,
  }
}
