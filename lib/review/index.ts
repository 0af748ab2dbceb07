/** The order of the review list, the reason for each place in it, and which findings a review answers. */
export { type AnswerChoice, answerChoices, answerWords, needsNote, usualBringBack } from './answerKinds.ts'
export { answerTo, handoverOf, isDanger, lastToTakeBack, partAnswered, pastAnswersTo } from './answers.ts'
export { bringBackAtMost } from './bringBack.ts'
export { findingKey, sameSubject } from './findingKey.ts'
export { compareFindings, sortFindings } from './findingOrder.ts'
export { type Answer, type Given, givenAnswers, type Handover, lastAbout, takenBackBy } from './given.ts'
export { compareUrgency, type Placed, type UrgencyKey, urgencyKey } from './urgency.ts'
export { type Explained, whySentence } from './whySentence.ts'
