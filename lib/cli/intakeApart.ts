/** The process apart that takes uploaded files in. */
import { type ApartRequest, acceptFiles, type FileReport, NOT_TAKEN_IN } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<ApartRequest, readonly FileReport[]>(NOT_TAKEN_IN, (store, { call, files, source, dryRun }, onProgress) =>
  acceptFiles({ store, ...call }, files, { source, dryRun, onProgress }),
)
