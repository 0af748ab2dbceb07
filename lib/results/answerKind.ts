/** What somebody did about a finding, from a look to handing it on (ours: a nurse's words for the steps of a weekly round). */
export const ANSWER_KINDS = ['seen', 'repeat-ordered', 'visit-brought-forward', 'contacted', 'bring-back', 'handed-to-physician'] as const
export type AnswerKind = (typeof ANSWER_KINDS)[number]

/** Those that answer a finding until a day. What is handed to a physician is answered by nobody yet. */
export type ReviewKind = Exclude<AnswerKind, 'handed-to-physician'>
