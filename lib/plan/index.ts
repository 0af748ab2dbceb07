/** The clinic's follow-up plan: which test groups are due when. Knows no rule. */
export { DEFAULT_PLAN } from './defaultPlan.ts'
export { daysDone, GROUP_ANALYTES } from './done.ts'
export { graceDays, intervalText, plusInterval } from './interval.ts'
export {
  type DueTest,
  type FollowUpPlan,
  type Interval,
  type PlanFor,
  type PlanRisk,
  type PlanRow,
  type PlanStep,
  type Repeat,
  TEST_GROUPS,
  type TestGroup,
} from './plan.ts'
export { testsDue } from './testsDue.ts'
