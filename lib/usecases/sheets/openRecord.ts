import type { Permission } from '../../access/index.ts'
import { type Assessment, assess } from '../../standing/index.ts'
import type { Reader, StoredEmergency } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { closedRefusal, isClosed, logClosedRefusal } from '../emergency/closed.ts'
import { runningViewOf } from '../emergency/runningView.ts'
import { planInForce } from '../plan/planInForce.ts'
import { refusedUnlessMay } from '../refuse.ts'

/** A record that may be read: the patient as assessed today, and the view that opens it where it is closed. */
export interface OpenRecord {
  readonly patientId: string
  readonly assessment: Assessment
  readonly revision: number
  /** The records read as this patient, the kept one first. */
  readonly recordIds: readonly string[]
  readonly emergency: StoredEmergency | null
}

/** The records read as one patient today, by any of their identifiers, the kept one first. */
export function recordIdsOf(reader: Pick<Reader, 'keptId' | 'joinedIds'>, anyId: string): readonly string[] {
  const kept = reader.keptId(anyId)
  return [kept, ...reader.joinedIds(kept)]
}

/**
 * May, then the record: one that is no longer followed is closed, and is read in an emergency view only, like the patient page. Whoever calls writes the
 * entry of what is shown.
 */
export async function openRecord(call: Call, permission: Permission, anyId: string): Promise<Outcome<OpenRecord>> {
  const refused = await refusedUnlessMay(call, permission, 'sheet')
  if (refused !== null) return refused
  const { reader } = call.store
  const stored = reader.loadHistory(anyId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: `No patient has the number "${anyId}".` }
  const assessment = assess(stored.history, planInForce(reader, call.today), call.today)
  const patientId = stored.history.patient.id
  const closed = isClosed(assessment.course)
  const emergency = closed ? runningViewOf(reader, call, patientId) : null
  if (closed && emergency === null && call.actor.role !== 'console') {
    await logClosedRefusal(call, permission, patientId)
    return closedRefusal(assessment.course)
  }
  return { ok: true, value: { patientId, assessment, revision: stored.revision, recordIds: recordIdsOf(reader, patientId), emergency } }
}

/** The record an address stands for. Whoever may not is not told which addresses are somebody's. */
export async function openRecordAt(call: Call, permission: Permission, address: string): Promise<Outcome<OpenRecord>> {
  const patientId = call.store.reader.patientIdAt(address)
  if (patientId !== null) return openRecord(call, permission, patientId)
  const refused = await refusedUnlessMay(call, permission, 'sheet')
  return refused ?? { ok: false, kind: 'not-found', reason: 'No patient is at this address.' }
}
