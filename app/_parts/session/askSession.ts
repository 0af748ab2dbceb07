import type { SessionAnswer } from '../../_server/tellSession.ts'
import { askJson } from '../askJson.ts'

/** Asks the server when the session ends; with `alive`, telling it that a person is there. Null where no answer came: then nothing is known. */
export function askSession({ alive }: { readonly alive: boolean }): Promise<SessionAnswer | null> {
  return askJson('/session', alive ? 'POST' : 'GET')
}
