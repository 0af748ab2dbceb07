import { changedSince, offersOf, readingLevel, sheetOf, sheetSentences } from '../../sheet/index.ts'
import type { StoredSheet } from '../../store/index.ts'
import type { Call, Outcome } from '../call.ts'
import { clinicDay } from '../clinicDay.ts'
import { emergencyBand } from '../emergency/band.ts'
import { personName } from '../personName.ts'
import { sheetOfStored } from './draft.ts'
import { type OpenRecord, openRecordAt } from './openRecord.ts'
import { withdrawnView } from './readSheets.ts'
import { isWhole, noSuchSheet, sheetOfPatient } from './sheetOfPatient.ts'
import type { OpenedSheet } from './views.ts'

function view(call: Call, stored: StoredSheet, record: OpenRecord): OpenedSheet {
  const sheet = sheetOfStored(stored)
  const { assessment, recordIds, emergency } = record
  const all = offersOf(assessment.course).map(({ test }) => test)
  const now = sheetOf(assessment, { chosen: all, own: null, visitOn: null, earlier: [] })
  return {
    sheetId: stored.id,
    patientId: record.patientId,
    name: personName(assessment.course.patient),
    sheet,
    digest: stored.contentSha256,
    level: readingLevel(sheetSentences(sheet)),
    releasedBy: stored.releasedBy,
    releasedOn: clinicDay(new Date(stored.releasedAt)),
    revision: stored.revision,
    revisionNow: record.revision,
    withdrawn: withdrawnView(stored),
    changed: changedSince(sheet, now),
    ofOtherRecords: stored.recordIds.some((id) => !recordIds.includes(id)),
    emergency: emergency === null ? null : emergencyBand(emergency, call),
  }
}

/** One released sheet as it was released. It is opened in the log before anything of it is answered. */
export async function openSheetAt(call: Call, address: string, sheetId: number): Promise<Outcome<OpenedSheet>> {
  const opened = await openRecordAt(call, 'sheet.read', address)
  if (!opened.ok) return opened
  const { patientId, emergency } = opened.value
  const stored = sheetOfPatient(call.store.reader, patientId, sheetId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: noSuchSheet(sheetId) }
  if (!isWhole(stored))
    return { ok: false, kind: 'unavailable', reason: `Sheet ${sheetId} is not what was released: the database was changed outside the program.` }
  const event = { action: 'sheet-opened', patientId, sheetId, ...(emergency === null ? {} : { emergencyId: emergency.id }) } as const
  await call.store.record(call, () => ({ value: null, events: [event] }))
  return { ok: true, value: view(call, stored, opened.value) }
}
