import { type FollowUpPlan, planOn } from '../../plan/index.ts'
import type { Reader } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'

/** The clinic's plan as it was, is or will be in force on a day. */
export function planInForce(reader: Pick<Reader, 'publishedPlans'>, on: Day): FollowUpPlan {
  return planOn(reader.publishedPlans(), on)
}
