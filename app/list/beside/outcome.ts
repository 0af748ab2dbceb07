import type { Window } from '../../../lib/rules/index.ts'
import type { Answered, ListRow } from '../../../lib/usecases/index.ts'
import { counted, WINDOW_WORDS, words } from '../../_parts/words.ts'
import type { Listed } from '../listed.ts'

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

// What the row says already is not said twice.
function nowSays(drawn: Listed, row: ListRow): string {
  const window = WINDOW_WORDS[row.window]
  if (row.window === drawn.window && row.why === drawn.why && row.rule !== null) return `It stays: ${window}.`
  return `Now: ${window}.${row.rule === null ? '' : ` ${row.why}`}`
}

const notedSame = ({ noted: a }: Pick<Listed, 'noted'>, { noted: b }: Pick<Listed, 'noted'>) =>
  a?.by === b?.by && a?.did === b?.did && a?.on === b?.on

/** What taking an answer back made of a row; null where it is as it was drawn. */
export function rowTakenBack(drawn: Listed, row: ListRow | null): RowDone | null {
  if (row === null) return { says: 'Taken back.', now: 'No longer on the list.', window: null, over: false }
  const isAsDrawn = row.why === drawn.why && row.answered === drawn.answered && row.handedOver?.by === drawn.handedOver?.by && notedSame(row, drawn)
  return isAsDrawn ? null : { says: 'An answer was taken back.', now: nowSays(drawn, row), window: row.window, over: row.rule === null }
}

/** What an answer made of a row. */
export function rowDone(drawn: Listed, { bringBackOn, row }: Answered, kind: string, count: number): RowDone {
  const what = bringBackOn === null ? 'Handed to a physician' : `${counted(count, 'finding')} answered (${words(kind)})`
  const over = row !== null && row.rule === null
  const back = bringBackOn === null || !over ? '' : `, back on ${bringBackOn}`
  return { says: `${what}${back}.`, now: row === null ? 'No longer on the list.' : nowSays(drawn, row), window: row?.window ?? null, over }
}
