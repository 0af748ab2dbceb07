import { assess } from '../../standing/index.ts'
import { canonicalJson } from '../../trail/index.ts'
import type { Call, Outcome } from '../call.ts'
import { refuse, unlessRefused } from '../decisions/decide.ts'
import { isClosed } from '../emergency/closed.ts'
import { planInForce } from '../plan/planInForce.ts'
import { draftOf } from './draft.ts'
import { openRecord, recordIdsOf } from './openRecord.ts'
import type { PreviewWish } from './previewSheet.ts'
import { readDraftWish } from './readDraftWish.ts'

/** What a physician saw, and releases: the wish, the digest of the sheet it made, and the last sheet released at that time (0 for none). */
export type ReleaseWish = PreviewWish & { readonly digest: string; readonly afterSheet: number }

/**
 * Releases a sheet: it is made again under the write lock, and kept only if it is byte for byte the one that was seen, and nobody released another one
 * meanwhile. Answers its number.
 */
export async function releaseSheet(call: Call, wish: ReleaseWish): Promise<Outcome<{ readonly sheetId: number }>> {
  const opened = await openRecord(call, 'sheet.release', wish.patientId)
  if (!opened.ok) return opened
  return unlessRefused(() =>
    call.store.record(call, (tx) => {
      const stored = tx.loadHistory(wish.patientId) ?? refuse('not-found', `No patient has the number "${wish.patientId}".`)
      const patientId = stored.history.patient.id
      const assessment = assess(stored.history, planInForce(tx, call.today), call.today)
      if (isClosed(assessment.course))
        refuse('not-allowed', 'This record is closed: the patient is no longer followed here, and no sheet is released.')
      const read = readDraftWish(wish, assessment)
      if ('reason' in read) return refuse('invalid', read.reason)
      const recordIds = recordIdsOf(tx, patientId)
      const { sheet, digest, afterSheet } = draftOf(tx, recordIds, assessment, read.wish)
      if (afterSheet !== wish.afterSheet)
        refuse('invalid', `Sheet ${afterSheet} was released meanwhile: look at it first. What you typed stands here.`)
      if (digest !== wish.digest)
        refuse('invalid', 'The sheet is another one by now than the one you saw: show it again and look. What you typed stands here.')
      const sheetId = tx.insertSheet({
        patientId,
        revision: stored.revision,
        recordIds,
        content: canonicalJson(sheet),
        contentSha256: digest,
        releasedBy: call.actor.name,
        releasedAt: call.now,
      })
      return { value: { sheetId }, events: [{ action: 'sheet-released', patientId, sheetId, after: digest }] }
    }),
  )
}
