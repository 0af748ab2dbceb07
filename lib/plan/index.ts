/** The clinic's follow-up plan: which test groups are due when. Knows no rule. */
export { type DueTest, type Interval, type Repeat, TEST_GROUPS, type TestGroup } from './plan.ts'
