import type { Course } from '../course/index.ts'
import type { Repeat } from '../plan/index.ts'
import { type CourseRule, RULES } from '../rules/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { isRepeated, repeatsFor } from './repeats.ts'

const ASKING = RULES.filter(({ id }) => isRepeated(id))

/** The tests that unconfirmed findings of a course ask to be repeated, asking only the rules that can. */
export function repeatsOf(course: Course): Repeat[] {
  return repeatsFor(ASKING.flatMap((rule) => rule.check(course)))
}

type Span = readonly [from: Day, to: Day]

const dayBefore = (on: Day | undefined): Day | null => (on === undefined ? null : addDays(on, -1))

/** From each sample that leaves a finding unconfirmed to the day before the next one. */
function unconfirmed({ judged }: CourseRule, course: Course): Span[] {
  return (judged?.(course) ?? []).flatMap(({ samples, judge }) =>
    samples.flatMap(({ on }, at): Span[] => (judge(at)?.state === 'unconfirmed' ? [[on, dayBefore(samples[at + 1]?.on) ?? course.today]] : [])),
  )
}

/**
 * While the window of comparison is not settled: until every series has the baseline it keeps. A later sample may be nearer the beginning, and what the
 * disease is measurable by, and so which rules run, follows from baselines.
 */
function settling({ phase, line, markers, immunoglobulin }: Course): Span[] {
  const begins = line?.start ?? phase?.since
  const baselines = [...Object.values(markers), ...(immunoglobulin === null ? [] : [immunoglobulin])].flatMap(({ baseline }) => baseline?.on ?? [])
  const last = baselines.sort().at(-1)
  return begins === undefined || last === undefined || last <= begins ? [] : [[begins, addDays(last, -1)]]
}

/**
 * Days outside which no finding that asks for a repeat can have been current, as of any day between two events of a course; the course is that of the last
 * of them. Both ends included.
 */
export function repeatSpans(course: Course): readonly Span[] {
  return [...settling(course), ...ASKING.flatMap((rule) => unconfirmed(rule, course))]
}
