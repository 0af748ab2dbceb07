/** What Lowmark says of a patient on a day: findings, due tests, risk, response, and how long the answer holds. */
export { assess } from './assess.ts'
export type { Assessment } from './assessment.ts'
export { type Attribution, isAttributable, shownOn, valuesNow } from './attributed.ts'
export { comesBackTo } from './comesBackTo.ts'
export { type Consequence, consequenceOf, type Marks, type NowWould } from './consequence.ts'
export { findingChanges, type NewChange } from './findingChanges.ts'
export { repeatsOf, repeatsWithin } from './repeatDays.ts'
