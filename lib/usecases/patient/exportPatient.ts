import { currentVersion, isWithdrawn, type LabResult } from '../../results/index.ts'
import type { Assessment } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { isDemonstration } from '../demonstration/fillDemonstration.ts'
import type { ExportedFile } from '../export/exportedFile.ts'
import { exactJson } from '../fhir/exactJson.ts'
import { summaryBundle } from '../fhir/summaryBundle.ts'
import { planInForce } from '../plan/planInForce.ts'
import { assessed } from './openPatient.ts'

/** Results whose version that counts takes them back, of all records that are read as this patient, collected by the day. */
function withdrawnOf({ store: { reader } }: Call, { asOf, course: { patient } }: Assessment): LabResult[] {
  const versions = [patient.id, ...reader.joinedIds(patient.id)].flatMap((id) => reader.versionsOfPatient(id)).filter(({ takenBack }) => !takenBack)
  return [...new Set(versions.map(({ identity }) => identity))].flatMap((identity) => {
    const current = currentVersion(versions.filter((version) => version.identity === identity).map(({ result }) => result))
    return current !== null && isWithdrawn(current) && current.collected.on <= asOf ? [current] : []
  })
}

/** One patient as a FHIR R4 Bundle for somebody else's program (docs/exports.md). The log keeps whose it was and at which revision, before the first byte. */
export async function exportPatient(call: Call, patientId: string, asOf: Day | null = null): Promise<Outcome<ExportedFile>> {
  const outcome = await assessed(call, patientId, asOf, 'fhir')
  if (!outcome.ok) return outcome
  const { assessment } = outcome.value
  const { reader } = call.store
  const bundle = summaryBundle(assessment, {
    now: call.now,
    databaseId: reader.databaseId(),
    planVersion: planInForce(reader, assessment.asOf).version,
    withdrawn: withdrawnOf(call, assessment),
    invented: isDemonstration(call.store),
  })
  return { ok: true, value: { fileName: `patient-summary-${assessment.asOf}.json`, text: exactJson(bundle) } }
}
