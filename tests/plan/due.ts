import { type Course, traceCourse } from '../../lib/course/index.ts'
import { riskAssessments } from '../../lib/models/index.ts'
import { DEFAULT_PLAN, type DueTest, type Repeat, type TestGroup, testsDue } from '../../lib/plan/index.ts'
import { day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** The course of a history in few words. */
export function courseOn(words: HistoryWords, today: string): Course {
  return traceCourse(history(words), day(today))
}

/** What is due by the default plan, with the risk the models give. */
export function dueOn(words: HistoryWords, today: string, repeats: readonly Repeat[] = []): readonly DueTest[] {
  const course = courseOn(words, today)
  return testsDue(course, DEFAULT_PLAN, riskAssessments(course), repeats)
}

/** The due days alone, by group. */
export function dueDays(words: HistoryWords, today: string, repeats: readonly Repeat[] = []): Partial<Record<TestGroup, string>> {
  return Object.fromEntries(dueOn(words, today, repeats).map((due) => [due.group, due.dueOn]))
}
