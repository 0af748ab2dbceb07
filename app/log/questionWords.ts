import type { LogQuestion } from '../../lib/usecases/index.ts'

/** What the log can be asked, as a person reads it. */
export const QUESTION_WORDS: Readonly<Record<LogQuestion['question'], string>> = {
  'every-entry': 'Every entry',
  'who-opened': 'Who was shown a patient',
  'what-opened': 'Which patients a person was shown',
  failures: 'Failures and refusals',
  'emergency-views': 'Emergency views',
}
