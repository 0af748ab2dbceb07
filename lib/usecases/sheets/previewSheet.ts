import type { Call, Outcome } from '../call.ts'
import { closedRefusal, isClosed } from '../emergency/closed.ts'
import { draftOf } from './draft.ts'
import { openRecord } from './openRecord.ts'
import { readDraftWish, type TypedWish } from './readDraftWish.ts'
import type { DraftView } from './views.ts'

export type PreviewWish = TypedWish & { readonly patientId: string }

/** The draft with other tests or own words, and how hard it is to read with them. Keeps nothing but the entry that a draft was shown. */
export async function previewSheet(call: Call, wish: PreviewWish): Promise<Outcome<DraftView>> {
  const opened = await openRecord(call, 'sheet.release', wish.patientId)
  if (!opened.ok) return opened
  const { patientId, assessment, recordIds } = opened.value
  if (isClosed(assessment.course) && call.actor.role !== 'console') return closedRefusal(assessment.course)
  const read = readDraftWish(wish, assessment)
  if ('reason' in read) return { ok: false, kind: 'invalid', reason: read.reason }
  const draft = draftOf(call.store.reader, recordIds, assessment, read.wish)
  await call.store.record(call, () => ({ value: null, events: [{ action: 'sheet-drafted', patientId }] }))
  return { ok: true, value: draft }
}
