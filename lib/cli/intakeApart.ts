/** The process apart that takes uploaded files in. */
import { type ApartRequest, acceptFiles, type FileReport } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<ApartRequest, readonly FileReport[]>('The files could not be taken in', (store, { call, files, source, dryRun }, onProgress) =>
  acceptFiles({ store, ...call }, files, { source, dryRun, onProgress }),
)
