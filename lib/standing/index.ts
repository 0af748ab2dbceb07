/** What Lowmark says of a patient on a day: findings, due tests, risk, response, and how long the answer holds. */
export type { Assessment } from './assessment.ts'
