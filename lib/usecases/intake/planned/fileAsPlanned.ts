import type { Tx } from '../../../store/index.ts'
import type { PlannedFiling } from './planFiling.ts'

/** Whether a plan is of what is stored now: of this revision of its patient, this knowledge of the source, and these numbers of versions. */
export function stillHolds(tx: Tx, { patientId, revision, knownAs, firstId }: PlannedFiling, knownNow: string): boolean {
  return knownAs === knownNow && firstId === tx.lastResultId() + 1 && tx.patient(patientId)?.revision === revision
}

/** Does what was planned, in the order of the rows. */
export function fileAsPlanned(tx: Tx, { steps }: PlannedFiling, fileId: number): void {
  for (const step of steps) {
    if ('repeats' in step) tx.insertRepeat('results', step.repeats, { fileId, line: step.line })
    else {
      const { patientId, identity, result, provenance } = step.version
      const { line, valueText, unitText } = provenance
      tx.insertResultVersion({ patientId, identity, result, provenance: { fileId, line, valueText, unitText } }, step.counts)
    }
  }
}
