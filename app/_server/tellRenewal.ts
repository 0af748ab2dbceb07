import 'server-only'
import { readRenewal } from '../../lib/usecases/index.ts'
import { tellJson } from './tellJson.ts'

/** Tells whoever waits for a page how far the answers of today are. */
export const tellRenewal = (): Promise<Response> => tellJson(readRenewal)
