import { assess } from '../../standing/index.ts'
import type { Call, Outcome } from '../call.ts'
import { lookUnderPseudonym } from '../look/lookView.ts'
import type { CompareWish } from '../look/views.ts'
import { earlierOf } from '../patient/earlierOf.ts'
import { replacedOf } from '../patient/replacedOf.ts'
import { planInForce } from '../plan/planInForce.ts'
import { cohortByPseudonym } from '../pseudonyms/cohortByPseudonym.ts'
import { isPseudonym } from '../pseudonyms/pseudonyms.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { cohortPatientView } from './cohortPatientView.ts'
import type { CohortPatientView } from './views.ts'

// What was asked for is not said again: somebody may have typed a name into the address.
const NOBODY = { ok: false, kind: 'not-found', reason: 'No patient has this pseudonym. A new key gives everybody a new one.' } as const

/** One patient under a pseudonym; the log keeps who it was before anything is shown. */
export async function openPseudonym(call: Call, pseudonym: string, wish: CompareWish | null = null): Promise<Outcome<CohortPatientView>> {
  const refused = await refusedUnlessMay(call, 'patient.read-pseudonymous', 'patient under pseudonym')
  if (refused !== null) return refused
  if (!isPseudonym(pseudonym)) return NOBODY
  const cohort = cohortByPseudonym(call)
  if (!cohort.ok) return cohort
  const patientId = cohort.value.patientIdOf(pseudonym)
  const stored = patientId === null ? null : call.store.reader.loadHistory(patientId)
  if (patientId === null || stored === null) return NOBODY
  await call.store.record(call, () => ({ value: null, events: [{ action: 'pseudonymous-patient-opened', patientId }] }))
  const { history } = stored
  const plan = planInForce(call.store.reader, call.today)
  const assessment = assess(history, plan, call.today)
  const look = lookUnderPseudonym({ history, plan, assessment }, { wish, planOn: (on) => planInForce(call.store.reader, on) })
  const versions = { replaced: replacedOf(call, assessment), earlier: earlierOf(call, assessment) }
  return { ok: true, value: cohortPatientView(assessment, pseudonym, versions, look) }
}
