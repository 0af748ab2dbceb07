import type { Course } from '../../course/index.ts'
import type { DueTest } from '../../plan/index.ts'
import type { Finding } from '../finding.ts'
import type { CourseRule, FollowUpRule } from '../rule.ts'
import { beyondNoise } from './beyondNoise.ts'
import { evolvingHaemoglobin } from './evolvingHaemoglobin.ts'
import { evolvingLightChain } from './evolvingLightChain.ts'
import { evolvingMProtein } from './evolvingMProtein.ts'
import { haemoglobinFall } from './haemoglobinFall.ts'
import { projectedCrossing } from './projectedCrossing.ts'
import { reclassify } from './reclassify.ts'
import { riskStep } from './riskStep.ts'

/** Where a course is heading, as the course alone shows it: rules of clinical.md 3.4, in the order of the specification. */
export const DRIFT_RULES: readonly CourseRule[] = [evolvingMProtein, evolvingHaemoglobin, evolvingLightChain, haemoglobinFall, reclassify, riskStep]

/** Those of 3.4 that ask what is due, or that nothing else was found. Each is told what the ones before it found too. */
export const DRIFT_FOLLOW_UP_RULES: readonly FollowUpRule[] = [projectedCrossing, beyondNoise]

/** What they find: current findings alone, since they rest on what is due or found today. */
export function driftAfterDue(course: Course, due: readonly DueTest[], found: readonly Finding[]): readonly Finding[] {
  const drift: Finding[] = []
  for (const rule of DRIFT_FOLLOW_UP_RULES) drift.push(...rule.check(course, due, [...found, ...drift]))
  return drift
}
