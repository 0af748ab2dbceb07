import type { NewResult, StandingRow, Tx } from '../../../store/index.ts'
import type { PlannedFiling } from './planFiling.ts'

/** Whether a plan is of what is stored now: of this revision of its patient, and of this knowledge of the source. */
export function stillHolds(tx: Tx, { patientId, revision, knownAs }: PlannedFiling, knownNow: string): boolean {
  return knownAs === knownNow && tx.patient(patientId)?.revision === revision
}

/** Does what was planned: stores the versions in the order of the rows, then keeps which rows only repeated one. Answers the standing that follows; null where none was planned, or where versions got other numbers. */
export function fileAsPlanned(tx: Tx, { steps, firstId, standing }: PlannedFiling, fileId: number): StandingRow | null {
  const versions: { version: NewResult; counts: boolean }[] = []
  const repeats: { repeats: number; line: number }[] = []
  for (const step of steps) {
    if ('repeats' in step) repeats.push(step)
    else {
      const { patientId, identity, result, provenance } = step.version
      const { line, valueText, unitText } = provenance
      versions.push({ version: { patientId, identity, result, provenance: { fileId, line, valueText, unitText } }, counts: step.counts })
    }
  }
  // What is repeated may be one of the versions, whose numbers are known once they are stored.
  const given = tx.insertResultVersions(versions)
  for (const { repeats: id, line } of repeats) tx.insertRepeat('results', given[id - firstId] ?? id, { fileId, line })
  return given.every((id, at) => id === firstId + at) ? standing : null
}
