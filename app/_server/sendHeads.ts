import { userInfo } from 'node:os'
import { openStore } from '../../lib/store/index.ts'
import { consoleCall, type HeadPlace, type HeadSending, headPlace, LONGEST_EVERY, sendHeadsEvery } from '../../lib/usecases/index.ts'
import { sharedStore } from './sharedStore.ts'

interface HeadSettings {
  readonly place: HeadPlace
  readonly seconds: number
}

const EVERY_SECONDS = 3_600

/** Where LOWMARK_LOG_HEAD_TO wants the head of the log, and how often; null where it is not set. Throws a sentence where a setting cannot be followed. */
export function headSendingAsked(): HeadSettings | null {
  const to = process.env.LOWMARK_LOG_HEAD_TO ?? ''
  if (to === '') return null
  const place = headPlace(to)
  if (typeof place === 'string') throw new Error(`LOWMARK_LOG_HEAD_TO: ${place}`)
  const text = process.env.LOWMARK_LOG_HEAD_EVERY ?? String(EVERY_SECONDS)
  const seconds = Number(text)
  if (!/^\d{1,6}$/.test(text) || seconds < 1 || seconds > LONGEST_EVERY)
    throw new Error(`LOWMARK_LOG_HEAD_EVERY takes a whole number of seconds from 1 to ${LONGEST_EVERY}, not "${text}".`)
  return { place, seconds }
}

/** Sends heads for as long as the program serves. A failure is a line on standard error, and is kept for the page of its health; the clinic works on. */
export function startSendingHeads({ place, seconds }: HeadSettings, databaseUrl: string): HeadSending {
  return sendHeadsEvery(place, seconds, {
    call: async () => consoleCall(await sharedStore(() => openStore(databaseUrl)), userInfo().username),
    onFailure: (sentence) => process.stderr.write(`${sentence}\n`),
  })
}
