import type { CohortRow } from '../cohort/views.ts'
import type { Columns } from '../export/exportedFile.ts'
import type { ListRow } from '../views.ts'

/** A word of the code in a cell: `within-7-days` is "within 7 days". */
export const words = (name: string): string => name.replaceAll('-', ' ')

/** Where somebody on the list stands, whoever it is. */
export const STANDS_COLUMNS: Columns<ListRow | CohortRow> = [
  ['phase', ({ phase }) => words(phase)],
  ['care', ({ care }) => (care === null ? null : words(care))],
  ['window', ({ window }) => words(window)],
  ['why', ({ why }) => why],
  ['state', ({ state }) => state],
  ['certainty', ({ certainty }) => certainty],
  ['cautions', ({ cautions }) => cautions.map(words).join('; ')],
  ['more findings', ({ more }) => more],
  ['answered findings', ({ answered }) => answered],
]

/** What waits there since when, and what is due. */
export const WAITS_COLUMNS: Columns<ListRow | CohortRow> = [
  ['since', ({ since }) => since],
  ['days waiting', ({ daysWaiting }) => daysWaiting],
  ['overdue', ({ overdue }) => overdue.map(({ group, dueOn, daysLate }) => `${words(group)} due ${dueOn} (days late: ${daysLate})`).join('; ')],
  ['next due', ({ nextDueOn }) => nextDueOn],
]
