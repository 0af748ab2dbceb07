import { isCorrection, RESULT_STATUSES } from '../results/index.ts'
import { field, type RawRow } from './row.ts'

/** Whether a row of results corrects, cancels or withdraws one that came before, by its status. */
export function correctsRow({ kind, fields }: Pick<RawRow, 'kind' | 'fields'>): boolean {
  if (kind !== 'results') return false
  const status = field({ fields }, 'status')
  return RESULT_STATUSES.some((known) => known === status && isCorrection(known))
}
