/** The clinic's follow-up plan: which test groups are due when. Knows no rule. */
export { type PlanChoice, type PlanValue, type PlanValues, sameValue, valueText } from './choice.ts'
export { DEFAULT_PLAN } from './defaultPlan.ts'
export { daysDone, GROUP_ANALYTES } from './done.ts'
export { graceDays, intervalText, plusInterval } from './interval.ts'
export { oftenText } from './oftenText.ts'
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
export { CLINIC_SOURCE, PLAN_CHOICES, rowTitle, valuesOf } from './planChoices.ts'
export { type PlanDifference, planDifferences } from './planDifferences.ts'
export { planOfValues } from './planOfValues.ts'
export { lastPlan, planOn } from './planOn.ts'
export { planRisk } from './planRisk.ts'
export { type PlanProblem, type ReadPlanValues, readPlanValues } from './readPlanValues.ts'
export { dueByPlan, type PlannedCourse, testsDue } from './testsDue.ts'
