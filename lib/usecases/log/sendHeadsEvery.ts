import type { Call } from '../call.ts'
import type { HeadPlace } from './headPlace.ts'
import { sendHead } from './sendHead.ts'

export interface HeadSending {
  /** Sends no more; resolves when what was being sent has ended. */
  stop(): Promise<void>
}

/** The longest time between two heads, in seconds: a day. */
export const LONGEST_EVERY = 86_400

/** Sends the head at once and then every so many seconds. A failure is told to `onFailure` and tried again the next time; it stops nothing. */
export function sendHeadsEvery(
  place: HeadPlace,
  seconds: number,
  { call, onFailure }: { readonly call: () => Promise<Call>; readonly onFailure: (sentence: string) => void },
): HeadSending {
  const send = async (): Promise<void> => {
    try {
      const sent = await sendHead(await call(), place)
      if (!sent.ok) onFailure(sent.reason)
    } catch (error) {
      onFailure(`The head of the log could not be sent: ${(error as Error).message}`)
    }
  }
  let sending: Promise<void> | null = null
  const sendUnlessSending = (): void => {
    // A slow server is waited for, not asked twice.
    sending ??= send().then(() => {
      sending = null
    })
  }
  sendUnlessSending()
  const timer = setInterval(sendUnlessSending, seconds * 1000)
  return {
    async stop() {
      clearInterval(timer)
      await sending
    },
  }
}
