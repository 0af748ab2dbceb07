import { exclusionsOf, type LabResult } from '../../results/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Day } from '../../time/index.ts'
import type { Call, Outcome } from '../call.ts'
import { type PatientJson, patientJson } from '../json/patientJson.ts'
import { patientView } from '../patientView.ts'
import type { PatientView } from '../patientViews.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** May, log row first, then the assessment: a patient is opened in the log before anything of them is shown. */
async function assessed(call: Call, patientId: string, asOf: Day | null): Promise<Outcome<Assessment>> {
  const refused = await refusedUnlessMay(call, 'patient.read', 'patient')
  if (refused !== null) return refused
  const stored = call.store.reader.loadHistory(patientId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: `No patient has the identifier "${patientId}".` }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'patient-opened', patientId: stored.history.patient.id }] }))
  const on = asOf ?? call.today
  return { ok: true, value: assess(stored.history, planInForce(call.store.reader, on), on) }
}

// Excluded versions that a correction has replaced since: no part of the history any more, and still to be seen.
function replacedOf({ store }: Call, { known }: Assessment): LabResult[] {
  const counting = new Set(known.results.map((result) => result.id))
  return [...exclusionsOf(known.decisions).keys()].filter((id) => !counting.has(id)).flatMap((id) => store.reader.result(id)?.result ?? [])
}

/** One patient for the patient page. */
export async function openPatient(call: Call, patientId: string, asOf: Day | null = null): Promise<Outcome<PatientView>> {
  const outcome = await assessed(call, patientId, asOf)
  return outcome.ok ? { ok: true, value: patientView(outcome.value, replacedOf(call, outcome.value)) } : outcome
}

/** One patient as the command line prints it. */
export async function patientDocument(call: Call, patientId: string, asOf: Day | null): Promise<Outcome<PatientJson>> {
  const outcome = await assessed(call, patientId, asOf)
  return outcome.ok ? { ok: true, value: patientJson(outcome.value) } : outcome
}
