import { GROUP_ANALYTES, type TestGroup } from '../../plan/index.ts'
import type { CourseEvent, History, LabResult } from '../../results/index.ts'
import type { Finding, RuleId } from '../../rules/index.ts'
import { addDays, type Day, laterDay } from '../../time/index.ts'
import type { WouldChange } from './change.ts'
import { freeId, repeated } from './nextSample.ts'
import { assessedThen, type Question } from './question.ts'

const NO_LESION = { lyticLesions: null, focalLesions5mm: null, newLesions: null, growthPercent: null } as const

/** The history as if a test group had been done on a day with the values of last time; null where one of its tests was never done. */
function withGroup(history: History, { course }: Question['assessment'], group: TestGroup, on: Day): History | null {
  if (group === 'imaging') {
    const event: CourseEvent = { event: 'imaging', on, modality: course.imaging.at(-1)?.modality ?? 'ct', ...NO_LESION }
    return { ...history, events: [...history.events, event] }
  }
  const last = GROUP_ANALYTES[group].map((analyte) =>
    course
      .samplesOf(analyte)
      .at(-1)
      ?.results.find((result) => result.analyte === analyte),
  )
  if (last.some((result) => result === undefined)) return null
  const id = freeId(history)
  const laboratory = last[0]?.laboratory ?? null
  const results = last
    .filter((result): result is LabResult => result !== undefined)
    .map((result, at) => ({ ...repeated(result, on, id + at), laboratory }))
  return { ...history, results: [...history.results, ...results] }
}

/** A day on which nothing of the group was sampled yet: today, or the day after. */
function dayFor({ course }: Question['assessment'], group: TestGroup): Day {
  const newest = GROUP_ANALYTES[group].map((analyte) => course.samplesOf(analyte).at(-1)?.on).filter((on) => on !== undefined)
  return newest.reduce((latest, on) => laterDay(latest, addDays(on, 1)), course.today)
}

const isTold = (findings: readonly Finding[], rule: RuleId, about: string | undefined): boolean =>
  findings.some((one) => one.rule === rule && (one.facts.group ?? one.facts.rule) === about)

/** What ends an open gap: the test done with the values of last time, the held rows decided, the second sample. Nothing where that would not end it. */
export function ofGap(question: Question, { rule, facts }: Finding): readonly WouldChange[] {
  const { history, assessment } = question
  const { course } = assessment
  const told = (changed: History, on: Day, about: string | undefined) => {
    const { findings, window } = assessedThen(question, changed, on)
    return isTold(findings, rule, about) ? null : window
  }
  if (rule === 'overdue' || rule === 'due-in-grace') {
    const group = facts.group as TestGroup
    const on = dayFor(assessment, group)
    const done = withGroup(history, assessment, group, on)
    const window = done === null ? null : told(done, on, group)
    return window === null ? [] : [{ what: 'done', rule, group, on, window }]
  }
  if (rule === 'held-results') {
    const window = told({ ...history, held: [] }, course.today, undefined)
    return window === null ? [] : [{ what: 'held-decided', rule, count: course.held.length, window }]
  }
  return []
}
