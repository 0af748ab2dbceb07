import { may } from '../../access/index.ts'
import { traceCourse } from '../../course/index.ts'
import { assess } from '../../standing/index.ts'
import type { StoredEmergency } from '../../store/index.ts'
import type { Day } from '../../time/index.ts'
import type { TrailEvent } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { cliniciansOf } from '../courseChanges/cliniciansOf.ts'
import { emergencyBand } from '../emergency/band.ts'
import { closedRefusal, isClosed, logClosedRefusal } from '../emergency/closed.ts'
import { runningViewOf } from '../emergency/runningView.ts'
import type { OpenedPatient } from '../emergency/views.ts'
import { type PatientJson, patientJson } from '../json/patientJson.ts'
import { type Looked, lookView } from '../look/lookView.ts'
import type { CompareWish } from '../look/views.ts'
import { patientView } from '../patientView.ts'
import type { PatientView } from '../patientViews.ts'
import { planInForce } from '../plan/planInForce.ts'
import { pseudonymsOf } from '../pseudonyms/pseudonymsOf.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { earlierOf } from './earlierOf.ts'
import { replacedOf } from './replacedOf.ts'

interface Opened extends Looked {
  /** The view that opens a closed record; null where the patient is followed, and at the console, to which every record is open. */
  readonly emergency: StoredEmergency | null
}

/** What is done with an opened patient: shown as a page, given as a FHIR file, laid out for paper. */
type OpenedAs = 'page' | 'fhir' | 'paper'

/**
 * May, log row first, then the answer: a patient is opened in the log before anything of them is shown. A record that is no longer followed is closed, and
 * opens in an emergency view only.
 */
export async function assessed(call: Call, anyId: string, asOf: Day | null, as: OpenedAs = 'page'): Promise<Outcome<Opened>> {
  const needs = as === 'page' ? 'patient.read' : 'patient.export'
  const refused = await refusedUnlessMay(call, needs, 'patient')
  if (refused !== null) return refused
  const { reader } = call.store
  const stored = reader.loadHistory(anyId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: `No patient has the number "${anyId}".` }
  const { history } = stored
  const patientId = history.patient.id
  const on = asOf ?? call.today
  const plan = planInForce(reader, on)
  const assessment = assess(history, plan, on)
  const course = on === call.today ? assessment.course : traceCourse(history, call.today)
  const emergency = isClosed(course) ? runningViewOf(reader, call, patientId) : null
  if (isClosed(course) && emergency === null && call.actor.role !== 'console') {
    await logClosedRefusal(call, needs, patientId)
    return closedRefusal(course)
  }
  const told = { patientId, ...(emergency === null ? {} : { emergencyId: emergency.id }) }
  const event: TrailEvent =
    as === 'page' ? { action: 'patient-opened', ...told } : { action: 'patient-exported', as, revision: stored.revision, ...told }
  await call.store.record(call, () => ({ value: null, events: [event] }))
  return { ok: true, value: { history, plan, assessment, emergency } }
}

/** One patient for the patient page. */
export async function openPatient(
  call: Call,
  patientId: string,
  asOf: Day | null = null,
  wish: CompareWish | null = null,
): Promise<Outcome<OpenedPatient>> {
  const outcome = await assessed(call, patientId, asOf)
  if (!outcome.ok) return outcome
  const { assessment, emergency } = outcome.value
  const band = emergency === null ? null : emergencyBand(emergency, call)
  const pseudonyms = pseudonymsOf(call)
  const pseudonym = pseudonyms.ok ? pseudonyms.value.of(assessment.course.patient.id) : null
  const { role } = call.actor
  const clinicians = may(role === 'none' ? null : role, 'course.write').allowed ? cliniciansOf(call.store.reader) : []
  const view = patientView(assessment, replacedOf(call, assessment), earlierOf(call, assessment))
  const look = lookView(outcome.value, { wish, planOn: (on) => planInForce(call.store.reader, on) })
  return { ok: true, value: { ...view, pseudonym, emergency: band, clinicians, look } }
}

/** One patient as the command line prints it. */
export async function patientDocument(call: Call, patientId: string, asOf: Day | null): Promise<Outcome<PatientJson>> {
  const outcome = await assessed(call, patientId, asOf)
  return outcome.ok ? { ok: true, value: patientJson(outcome.value.assessment) } : outcome
}

/** One patient for a sheet of paper; `emergency` as on the page. */
export type PaperPatient = PatientView & Pick<OpenedPatient, 'emergency'>

/** What is said of one patient on a sheet of paper for a letter: the page's words, without forms. */
export async function patientOnPaper(call: Call, patientId: string): Promise<Outcome<PaperPatient>> {
  const outcome = await assessed(call, patientId, null, 'paper')
  if (!outcome.ok) return outcome
  const { assessment, emergency } = outcome.value
  const band = emergency === null ? null : emergencyBand(emergency, call)
  return { ok: true, value: { ...patientView(assessment), emergency: band } }
}
