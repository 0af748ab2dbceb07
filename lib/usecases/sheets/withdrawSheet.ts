import { canonicalSha256 } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { typedText } from '../decisions/typedText.ts'
import { closedRefusal, isClosed } from '../emergency/closed.ts'
import { openRecord } from './openRecord.ts'
import { noSuchSheet, sheetOfPatient } from './sheetOfPatient.ts'

export interface SheetWithdrawalWish {
  readonly patientId: string
  readonly sheetId: number
  readonly reason: string
}

/** Takes a released sheet back, with the reason: it stays to be read, and is marked wherever it is shown or printed. */
export async function withdrawSheet(call: Call, { patientId, sheetId, reason }: SheetWithdrawalWish): Promise<Outcome<null>> {
  const opened = await openRecord(call, 'sheet.release', patientId)
  if (!opened.ok) return opened
  const { course } = opened.value.assessment
  if (isClosed(course) && call.actor.role !== 'console') return closedRefusal(course)
  const typed = typedText(reason, 'The reason')
  if ('reason' in typed) return { ok: false, kind: 'invalid', reason: typed.reason }
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const stored = sheetOfPatient(tx, patientId, sheetId) ?? refuse('not-found', noSuchSheet(sheetId))
      if (stored.withdrawnBy !== null) refuse('invalid', `Sheet ${sheetId} was withdrawn by ${stored.withdrawnBy} already.`)
      tx.withdrawSheet({ id: sheetId, by: call.actor.name, at: call.now, reason: typed.text })
      const [before, after] = [canonicalSha256(stored), canonicalSha256(tx.sheet(sheetId) ?? stored)]
      return { value: null, events: [{ action: 'sheet-withdrawn', patientId: opened.value.patientId, sheetId, before, after }] }
    }),
  )
}
