import type { Call, Outcome } from '../call.ts'
import { openRecord } from './openRecord.ts'
import { noSuchSheet, sheetOfPatient } from './sheetOfPatient.ts'

export interface PrintWish {
  readonly patientId: string
  readonly sheetId: number
}

/** Writes down that a released sheet is being printed, before the browser is asked to. Refused for one that was withdrawn. */
export async function printSheet(call: Call, { patientId, sheetId }: PrintWish): Promise<Outcome<null>> {
  const opened = await openRecord(call, 'sheet.read', patientId)
  if (!opened.ok) return opened
  const { emergency } = opened.value
  const stored = sheetOfPatient(call.store.reader, patientId, sheetId)
  if (stored === null) return { ok: false, kind: 'not-found', reason: noSuchSheet(sheetId) }
  if (stored.withdrawnAt !== null) return { ok: false, kind: 'invalid', reason: `Sheet ${sheetId} was withdrawn: it is not for handing out.` }
  if (stored.recordIds.some((id) => !opened.value.recordIds.includes(id)))
    return { ok: false, kind: 'invalid', reason: `Sheet ${sheetId} may show another person's results: it is not for handing out.` }
  const event = {
    action: 'sheet-printed',
    patientId: opened.value.patientId,
    sheetId,
    ...(emergency === null ? {} : { emergencyId: emergency.id }),
  } as const
  await call.store.record(call, () => ({ value: null, events: [event] }))
  return { ok: true, value: null }
}
