import type { Thresholds } from '../course/index.ts'
import { type PlanValues, sameValue } from './choice.ts'
import { DEFAULT_PLAN } from './defaultPlan.ts'
import type { FollowUpPlan, Interval, PlanRow } from './plan.ts'
import { CLINIC_SOURCE, everyId, GRACE_MOST, GRACE_PERCENT, thresholdId, untilId } from './planChoices.ts'

function rowWith(row: PlanRow, values: PlanValues): PlanRow {
  const steps = row.steps.map(({ until }, step) => ({
    every: values[everyId(row.id, step)] as Interval,
    until: until === null ? null : (values[untilId(row.id, step)] as Interval),
  }))
  const asItComes = row.steps.every(({ every, until }, step) => {
    const set = steps[step]
    return set !== undefined && sameValue(set.every, every) && (until === null || set.until === null || sameValue(set.until, until))
  })
  return { ...row, steps, source: asItComes ? row.source : CLINIC_SOURCE }
}

/**
 * The plan these values make: whom a row is for, its tests and its order as Lowmark comes, with the numbers of the clinic. A row with a number of the
 * clinic names the clinic as its source. The values must be complete and within bounds, as `readPlanValues` gives them.
 */
export function planOfValues(values: PlanValues, { version, from }: Pick<FollowUpPlan, 'version' | 'from'>): FollowUpPlan {
  const thresholds = Object.fromEntries(Object.keys(DEFAULT_PLAN.thresholds).map((key) => [key, values[thresholdId(key)]]))
  return {
    version,
    from,
    rows: DEFAULT_PLAN.rows.map((row) => rowWith(row, values)),
    grace: { percent: values[GRACE_PERCENT] as number, atMostDays: values[GRACE_MOST] as number },
    thresholds: thresholds as unknown as Thresholds,
  }
}
