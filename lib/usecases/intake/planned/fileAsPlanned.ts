import type { NewResult, StandingRow, Tx } from '../../../store/index.ts'
import type { PlannedFiling } from './planFiling.ts'

/** Whether a plan is of what is stored now: of this revision of its patient, and of this knowledge of the source. */
export function stillHolds(tx: Tx, { patientId, revision, knownAs }: PlannedFiling, knownNow: string): boolean {
  return knownAs === knownNow && tx.patient(patientId)?.revision === revision
}

/** Does what was planned, in the order of the rows. Answers the standing that follows; null where none was planned, or where versions got other numbers. */
export function fileAsPlanned(tx: Tx, { steps, firstId, standing }: PlannedFiling, fileId: number): StandingRow | null {
  const given: number[] = []
  let waiting: { version: NewResult; counts: boolean }[] = []
  const store = (): void => {
    given.push(...tx.insertResultVersions(waiting))
    waiting = []
  }
  for (const step of steps) {
    if ('repeats' in step) {
      // What is repeated may be one of those that wait.
      store()
      tx.insertRepeat('results', given[step.repeats - firstId] ?? step.repeats, { fileId, line: step.line })
    } else {
      const { patientId, identity, result, provenance } = step.version
      const { line, valueText, unitText } = provenance
      waiting.push({ version: { patientId, identity, result, provenance: { fileId, line, valueText, unitText } }, counts: step.counts })
    }
  }
  store()
  return given.every((id, at) => id === firstId + at) ? standing : null
}
