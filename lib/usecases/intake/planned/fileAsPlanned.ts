import type { NewRepeat, NewResult, StandingRow, StoredPatient, Tx } from '../../../store/index.ts'
import { mappingUses } from '../keepMappings.ts'
import type { PlannedFiling } from './planFiling.ts'

/** Whether a plan is of what is stored now: of this revision of its patient, and of this knowledge of the source. */
export function stillHolds({ patient, knownAs }: PlannedFiling, stored: StoredPatient | null, knownNow: string): boolean {
  return knownAs === knownNow && stored?.revision === patient?.revision
}

/** The repetitions of a plan; what is repeated may be one of its versions, whose numbers are known once they are stored. */
function repeatsOf({ repeats, firstId }: PlannedFiling, given: readonly number[]): readonly NewRepeat[] {
  return repeats.map(({ versionId, line }) => ({ versionId: given[versionId - firstId] ?? versionId, line }))
}

/** A version as the file it came with brings it. */
function fromFile({ patientId, identity, result, provenance: { line, valueText, unitText } }: NewResult, fileId: number): NewResult {
  return { patientId, identity, result, provenance: { fileId, line, valueText, unitText } }
}

/**
 * Does what was planned, of each patient the versions in the order of the rows, all of them at once: on a server every statement is a journey. Answers the
 * standings that follow, by patient; null where none was planned, or where versions got other numbers.
 */
export function fileAsPlanned(tx: Tx, plans: readonly PlannedFiling[], fileId: number): ReadonlyMap<string, StandingRow | null> {
  const versions = plans.flatMap((plan) => plan.versions.map(({ version, counts }) => ({ version: fromFile(version, fileId), counts })))
  const given = tx.insertResultVersions(versions)
  const uses = plans.flatMap(({ rows }) =>
    rows.flatMap(({ understood: { meant, raw }, answer }) => mappingUses(meant, answer, { fileId, line: raw.line })),
  )
  // Before the repetitions: of those only what was read with a mapping is kept.
  tx.insertMappingUses(uses)
  const standings = new Map<string, StandingRow | null>()
  let from = 0
  for (const plan of plans) {
    const own = given.slice(from, from + plan.versions.length)
    from += own.length
    tx.insertRepeats('results', { fileId, patientId: plan.patientId }, repeatsOf(plan, own))
    standings.set(plan.patientId, own.every((id, at) => id === plan.firstId + at) ? plan.standing : null)
  }
  return standings
}
