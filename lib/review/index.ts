/** The order of the review list, and the reason for each place in it. */
export { compareFindings, sortFindings } from './findingOrder.ts'
export { compareUrgency, type Placed, type UrgencyKey, urgencyKey } from './urgency.ts'
export { type Explained, whySentence } from './whySentence.ts'
