/** A process apart that evaluates a part of the cohort. */
import { type Difference, type StandingPartRequest, standingPart } from '../usecases/index.ts'
import { answerApart } from './answerApart.ts'

answerApart<StandingPartRequest, readonly Difference[]>('A part of the cohort could not be evaluated', (store, { call, ...wish }, onProgress) =>
  standingPart({ store, ...call }, wish, onProgress),
)
