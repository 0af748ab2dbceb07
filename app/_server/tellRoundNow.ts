import 'server-only'
import { readRoundNow } from '../../lib/usecases/index.ts'
import { tellJson } from './tellJson.ts'

/** Tells a list that is worked through how far the round is, compared with the round it names. */
export const tellRoundNow = (since: number | null): Promise<Response> => tellJson((call) => readRoundNow(call, since))
