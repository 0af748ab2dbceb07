import type { ResultStatus } from '../../results/index.ts'

/** HL7 table 0085 as far as it says what becomes of a value. All others (R, S, U, I, N, O, ...) are no word on a value that could be filed. */
const STATUSES = new Map<string, ResultStatus>([
  ['P', 'preliminary'],
  ['F', 'final'],
  ['C', 'corrected'],
  ['X', 'cancelled'],
  ['W', 'entered-in-error'],
  ['D', 'entered-in-error'],
])

/** The status of a result by OBX-11; null where that names none of ours. The status of the order (OBR-25) does not overrule it. */
export function observationStatus(received: string): ResultStatus | null {
  return STATUSES.get(received) ?? null
}
