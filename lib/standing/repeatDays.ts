import type { Course } from '../course/index.ts'
import type { Repeat } from '../plan/index.ts'
import { type Finding, RULES } from '../rules/index.ts'
import { addDays, type Day } from '../time/index.ts'
import { isRepeated, repeatsFor } from './repeats.ts'

const ASKING = RULES.filter(({ id }) => isRepeated(id))

const foundBy = (course: Course): Finding[] => ASKING.flatMap((rule) => rule.check(course))

/** The tests that unconfirmed findings of a course ask to be repeated, asking only the rules that can. */
export function repeatsOf(course: Course): Repeat[] {
  return repeatsFor(foundBy(course))
}

type Span = readonly [from: Day, to: Day]

// Light chains may tell on a later day what an M-protein hid on their own: until they are measured again.
function untilLightChains(course: Course, ended: Day): Day {
  return course.lightChains.find(({ on }) => on >= ended)?.on ?? course.today
}

/**
 * Days outside which no finding that asks for a repeat can have been current, as of any day between two events of a course; the course is that of the last
 * of them. Both ends included. Of a baseline that later samples may have moved, every day is one.
 */
export function repeatSpans(course: Course): readonly Span[] {
  const { phase, line, thresholds, today } = course
  if (phase === null) return []
  const settling: Span =
    line === null
      ? [phase.since, addDays(phase.since, thresholds.baselineAroundDays)]
      : [line.start, addDays(line.start, thresholds.baselineAfterDays)]
  const runs = foundBy(course).map(({ since, endedOn }): Span => [since, endedOn === null ? today : untilLightChains(course, endedOn)])
  return [settling, ...runs]
}
