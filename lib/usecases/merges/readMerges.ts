import { traceCourse } from '../../course/index.ts'
import type { StoredMerge } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { closedRefusal, isClosed } from '../emergency/closed.ts'
import { refusedUnlessMay } from '../refuse.ts'
import { comparison } from './compare.ts'
import { differencesOf } from './differences.ts'
import { identitySha256 } from './identitySha256.ts'
import { mergeView } from './mergeView.ts'
import type { ComparisonView, MergesPage, PatientMergesView, WaitingMergeView } from './views.ts'

function waitingView(call: Call, merge: StoredMerge): WaitingMergeView[] {
  const { reader } = call.store
  const compared = comparison(reader, merge.fromId, merge.intoId)
  if (compared === null) return []
  const view = mergeView(merge, call)
  const changed = identitySha256(reader, merge.fromId, merge.intoId) !== merge.identitySha256
  const notToConfirm =
    compared.obstacle ??
    (changed ? 'What identifies these records has changed since this was proposed: decline it, look again, and propose it anew.' : null) ??
    (view.own ? 'You proposed this; somebody else has to confirm it.' : null)
  return [{ ...view, ...compared, notToConfirm }]
}

/** Merges that wait for a second person, side by side; those in force; and those that are past. Logs whose records were shown. */
export async function readMerges(call: Call): Promise<Outcome<MergesPage>> {
  const refused = await refusedUnlessMay(call, 'patient.merge', 'merges')
  if (refused !== null) return refused
  const all = call.store.reader.merges()
  const waiting = all.filter(({ decision }) => decision === null).flatMap((merge) => waitingView(call, merge))
  const others = all.filter(({ decision }) => decision !== null).map((merge) => mergeView(merge, call))
  await call.store.record(call, () => ({
    value: null,
    events: [{ action: 'merges-shown', patients: waiting.flatMap(({ fromId, intoId }) => [fromId, intoId]) }],
  }))
  const inForce = others.filter(({ state }) => state === 'in force')
  return { ok: true, value: { waiting, inForce, past: others.filter(({ state }) => state !== 'in force').toReversed() } }
}

/** Two records side by side, before anybody proposes to join them. Logged: both are shown. */
export async function compareRecords(call: Call, wish: { readonly fromId: string; readonly intoId: string }): Promise<Outcome<ComparisonView>> {
  const refused = await refusedUnlessMay(call, 'patient.merge', 'patients')
  if (refused !== null) return refused
  const { reader } = call.store
  const [fromId, intoId] = [wish.fromId.trim(), wish.intoId.trim()]
  const compared = comparison(reader, fromId, intoId)
  if (compared === null) {
    const unknown = reader.patient(fromId) === null ? fromId : intoId
    return { ok: false, kind: 'not-found', reason: `No patient has the number "${unknown}".` }
  }
  await call.store.record(call, () => ({ value: null, events: [{ action: 'records-compared', patientId: intoId, fromId }] }))
  return { ok: true, value: compared }
}

/** Why a joined record shows nothing: the patient it is read as is no longer followed. The page that opens it says so, with the entry. Null where it shows. */
function closedWith(call: Call, patientId: string) {
  const history = call.store.reader.loadHistory(patientId)?.history
  if (history === undefined || call.actor.role === 'console') return null
  const course = traceCourse(history, call.today)
  return isClosed(course) ? closedRefusal(course) : null
}

/**
 * Where a record is joined to, what is joined to it, and what waits. Where it is joined it is all its page shows, and so is logged like a page, and refused
 * like one where it is closed.
 */
export async function patientMerges(call: Call, patientId: string): Promise<Outcome<PatientMergesView>> {
  const refused = await refusedUnlessMay(call, 'patient.merge', 'patient')
  if (refused !== null) return refused
  const { reader } = call.store
  const view = reader.atOnce((): PatientMergesView | null => {
    if (reader.patient(patientId) === null) return null
    const all = reader.mergesOf(patientId).map((merge) => mergeView(merge, call))
    const inForce = all.filter(({ state }) => state === 'in force')
    const joined = inForce.filter(({ intoId }) => intoId === patientId)
    return {
      patientId,
      joinedTo: inForce.find(({ fromId }) => fromId === patientId) ?? null,
      joined,
      waiting: all.filter(({ state }) => state === 'waiting'),
      differences: joined.flatMap(({ fromId }) => {
        const [kept, other] = [reader.record(patientId), reader.record(fromId)]
        return kept === null || other === null ? [] : differencesOf(kept, other)
      }),
    }
  })
  if (view === null) return { ok: false, kind: 'not-found', reason: `No patient has the number "${patientId}".` }
  const closed = view.joinedTo === null ? null : closedWith(call, patientId)
  if (closed !== null) return closed
  if (view.joinedTo !== null) await call.store.record(call, () => ({ value: null, events: [{ action: 'patient-opened', patientId }] }))
  return { ok: true, value: view }
}
