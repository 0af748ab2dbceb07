/** The order of the review list, the reason for each place in it, and which findings a review answers. */
export { type Answer, answerTo, isDanger, partAnswered, pastAnswersTo } from './answers.ts'
export { bringBackAtMost } from './bringBack.ts'
export { findingKey, sameSubject } from './findingKey.ts'
export { compareFindings, sortFindings } from './findingOrder.ts'
export { compareUrgency, type Placed, type UrgencyKey, urgencyKey } from './urgency.ts'
export { type Explained, whySentence } from './whySentence.ts'
