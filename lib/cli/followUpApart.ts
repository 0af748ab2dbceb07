/** The process apart that works out the follow-up audit of the whole cohort. */
import { type FollowUpAnswer, type FollowUpApartRequest, readOccasions, readWaiting, workOutFollowUp } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<FollowUpApartRequest, FollowUpAnswer>('The audit could not be worked out', (store, { call: given, asked }, onProgress) => {
  const call = { store, ...given }
  if (asked.what === 'waiting') return readWaiting(call, asked.wish, onProgress)
  return asked.what === 'occasions' ? readOccasions(call, asked.wish, onProgress) : workOutFollowUp(call, asked.wish, onProgress)
})
