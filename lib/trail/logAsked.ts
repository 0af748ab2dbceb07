import type { Day } from '../time/index.ts'

/** What the log can be asked: all of it, to whom a patient was shown, what somebody was shown, what failed, and emergency views. */
export const LOG_QUESTIONS = ['every-entry', 'who-opened', 'what-opened', 'failures', 'emergency-views'] as const

/** What somebody asked the log: the question as it was understood, never the text that was typed. */
export interface LogAsked {
  readonly question: (typeof LOG_QUESTIONS)[number]
  /** Whom the question was about; null where what was typed is nobody's. Absent where no patient was asked for. */
  readonly patientId?: string | null
  readonly person?: string
  readonly only?: string
  readonly from?: Day
  readonly to?: Day
}
