/** The process apart that works out the follow-up audit of the whole cohort. */
import { exportFollowUp, type FollowUpAnswer, type FollowUpApartRequest, readFollowUp, readOccasions } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<FollowUpApartRequest, FollowUpAnswer>('The audit could not be worked out', (store, { call: given, asked }, onProgress) => {
  const call = { store, ...given }
  if (asked.what === 'occasions') return readOccasions(call, asked.wish, onProgress)
  return asked.what === 'file' ? exportFollowUp(call, asked.wish, onProgress) : readFollowUp(call, asked.wish, { onProgress })
})
