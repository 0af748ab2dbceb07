import type { Window } from '../../../lib/rules/index.ts'
import type { Answered } from '../../../lib/usecases/index.ts'
import { counted, WINDOW_WORDS, words } from '../../_parts/words.ts'

/** What became of a row since the list was drawn. */
export interface RowDone {
  /** What was done, in a few words. */
  readonly says: string
  /** Where the patient stands now, and why where something is open still. */
  readonly now: string
  readonly window: Window | null
  /** False where something is open still. */
  readonly over: boolean
}

/** What an answer made of a row. */
export function rowDone({ bringBackOn, row }: Answered, kind: string, count: number): RowDone {
  const what = bringBackOn === null ? 'Handed to a physician' : `${counted(count, 'finding')} answered (${words(kind)})`
  const over = row !== null && row.rule === null
  const back = bringBackOn === null || !over ? '' : `, back on ${bringBackOn}`
  const now = row === null ? 'No longer on the list.' : `Now: ${WINDOW_WORDS[row.window]}.${over ? '' : ` ${row.why}`}`
  return { says: `${what}${back}.`, now, window: row?.window ?? null, over }
}
