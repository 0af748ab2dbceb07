import { type Changes, changeSays, holdsSays, standsFacts, standsSentence, whatWouldChange } from '../../lib/look/index.ts'
import { DEFAULT_PLAN } from '../../lib/plan/index.ts'
import type { History } from '../../lib/results/index.ts'
import { assess } from '../../lib/standing/index.ts'
import { type Day, day } from '../../lib/time/index.ts'
import { type HistoryWords, history } from '../builders/history.ts'

/** What would change of a history on a day, by the plan Lowmark comes with. */
export function changesOf(known: History, today: Day): Changes {
  return whatWouldChange({ history: known, plan: DEFAULT_PLAN, assessment: assess(known, DEFAULT_PLAN, today) })
}

/** The same in sentences, that of waiting last. */
export function changeSentences(words: HistoryWords, today: string): string[] {
  const changes = changesOf(history(words), day(today))
  return [...changes.changes.map(changeSays), holdsSays(changes)]
}

export function standsOn(words: HistoryWords, today: string): string {
  return standsSentence(standsFacts(assess(history(words), DEFAULT_PLAN, day(today))))
}
