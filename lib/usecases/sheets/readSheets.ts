import { may } from '../../access/index.ts'
import { offersOf } from '../../sheet/index.ts'
import type { StoredSheet } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicDay } from '../clinicDay.ts'
import { emergencyBand } from '../emergency/band.ts'
import { personName } from '../personName.ts'
import { draftOf, sheetOfStored } from './draft.ts'
import { openRecordAt } from './openRecord.ts'
import type { SheetInList, SheetsPage, WithdrawnView } from './views.ts'

/** Who took a stored sheet back; null where it stands. */
export function withdrawnView({ withdrawnBy: by, withdrawnAt: at, withdrawalReason: reason }: StoredSheet): WithdrawnView | null {
  return by === null || at === null || reason === null ? null : { by, on: clinicDay(new Date(at)), reason }
}

function inList(stored: StoredSheet): SheetInList {
  const { id, releasedBy, releasedAt } = stored
  const tests = sheetOfStored(stored).items.map(({ name }) => name)
  return { sheetId: id, releasedBy, releasedOn: clinicDay(new Date(releasedAt)), tests, withdrawn: withdrawnView(stored) }
}

/**
 * The sheets released for a patient, and for whoever may release one a draft with the usual tests. What is shown is in the log before it is answered. A
 * closed record read in an emergency view has no draft.
 */
export async function readSheetsAt(call: Call, address: string): Promise<Outcome<SheetsPage>> {
  const opened = await openRecordAt(call, 'sheet.read', address)
  if (!opened.ok) return opened
  const { patientId, assessment, recordIds, emergency } = opened.value
  const { role } = call.actor
  const drafts = emergency === null && may(role === 'none' ? null : role, 'sheet.release').allowed
  const offers = offersOf(assessment.course)
  const usual = offers.filter(({ isUsual }) => isUsual).map(({ test }) => test)
  const page: SheetsPage = {
    patientId,
    name: personName(assessment.course.patient),
    released: call.store.reader.sheetsOf(recordIds).map(inList).toReversed(),
    offers,
    held: assessment.course.held.length,
    draft: drafts ? draftOf(call.store.reader, recordIds, assessment, { chosen: usual, own: '', visitOn: null }) : null,
    emergency: emergency === null ? null : emergencyBand(emergency, call),
  }
  const seen = { action: 'patient-opened', patientId, ...(emergency === null ? {} : { emergencyId: emergency.id }) } as const
  await call.store.record(call, () => ({ value: null, events: drafts ? [{ action: 'sheet-drafted', patientId }] : [seen] }))
  return { ok: true, value: page }
}
