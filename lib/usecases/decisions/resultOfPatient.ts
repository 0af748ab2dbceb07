import { isWithdrawn } from '../../results/index.ts'
import type { Reader, StoredResult } from '../../store/index.ts'
import { refuse } from './decide.ts'

/** Which result version a person decides on, and why. */
export interface ResultWish {
  readonly patientId: string
  readonly resultId: number
  readonly reason: string
  /** The stamp of the consequence that was shown; absent where none was. */
  readonly shown?: string | undefined
}

/** The result version a person means. Refuses one of nobody, of another patient, and one the laboratory withdrew. */
export function resultOfPatient(reader: Reader, { patientId, resultId }: Omit<ResultWish, 'reason'>): StoredResult {
  const stored = reader.result(resultId)
  // Another patient's number is answered like nobody's: it tells nothing about them.
  if (stored === null || reader.keptId(stored.patientId) !== reader.keptId(patientId))
    return refuse('not-found', `Patient ${patientId} has no result with the number ${resultId}.`)
  if (isWithdrawn(stored.result)) refuse('invalid', `The laboratory withdrew result ${resultId}: it counts for nothing already.`)
  return stored
}
