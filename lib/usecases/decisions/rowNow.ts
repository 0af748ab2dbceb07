import type { Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { listRow } from '../list/showList.ts'
import { comparedWith } from '../rounds/comparedWith.ts'
import { rowsOfRound } from '../rounds/rowsOfRound.ts'
import type { ListRow } from '../views.ts'

const ALONE = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 1 } as const

/** A patient's row of the list as it is now, inside the transaction that changed it; null for whoever is not on the list. Its place counts from the top of nothing. */
export function rowNow(call: Call, tx: Tx, patientId: string): ListRow | null {
  const { rows } = tx.standingsPage({ ...ALONE, patientId })
  const [row] = rowsOfRound(tx, call, rows, comparedWith(tx, null))
  return row === undefined ? null : { ...listRow(row.kept, 0, call), round: row.round }
}
