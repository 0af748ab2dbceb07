import { exclusionsOf, type LabResult } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Call } from '../call.ts'

/** Excluded versions that a correction has replaced since: no part of the history any more, and still to be seen. */
export function replacedOf({ store }: Pick<Call, 'store'>, { known }: Assessment): LabResult[] {
  const counting = new Set(known.results.map((result) => result.id))
  return [...exclusionsOf(known.decisions).keys()].filter((id) => !counting.has(id)).flatMap((id) => store.reader.result(id)?.result ?? [])
}
