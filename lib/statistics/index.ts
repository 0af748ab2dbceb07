/** Numbers in, numbers out. Knows nothing of patients and imports no other room. */
export { doublingDays } from './doublingDays.ts'
export { type DatedValue, type LogLinearFit, logLinearFit, slopeInterval } from './logLinearFit.ts'
export { normalQuantile, normalShareBelow } from './normal.ts'
export { ONE_SIDED_95, referenceChange, TOTAL_CV } from './referenceChange.ts'
export { studentQuantile } from './studentQuantile.ts'
