/** A process apart that audits a part of the cohort. */
import { auditPartApart, type PartDone, type PartRequest } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<PartRequest, PartDone>('A part of the cohort could not be audited', (store, { call, wish }, onProgress) =>
  auditPartApart({ store, ...call }, wish, onProgress),
)
