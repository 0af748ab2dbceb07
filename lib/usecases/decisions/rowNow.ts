import type { Tx } from '../../store/index.ts'
import type { Call } from '../call.ts'
import { listRow } from '../list/showList.ts'
import { comparedWith } from '../rounds/comparedWith.ts'
import { rowOfRound } from '../rounds/rowOfRound.ts'
import type { ListRow } from '../views.ts'

const ALONE = { window: null, phase: null, clinician: null, rule: null, sort: 'urgency', descending: false, page: 1, pageSize: 1 } as const

/** A patient's row of the list as it is now, inside the transaction that changed it; null for whoever is not on the list. Its place counts from the top of nothing. */
export function rowNow(call: Call, tx: Tx, patientId: string): ListRow | null {
  const [kept] = tx.standingsPage({ ...ALONE, patientId }).rows
  return kept === undefined ? null : { ...listRow(kept, 0, call), round: rowOfRound(tx, call, kept, comparedWith(tx, null)) }
}
