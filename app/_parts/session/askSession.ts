import type { SessionAnswer } from '../../_server/tellSession.ts'

/** Asks the server when the session ends; with `alive`, telling it that a person is there. Null where no answer came: then nothing is known. */
export async function askSession({ alive }: { readonly alive: boolean }): Promise<SessionAnswer | null> {
  try {
    const response = await fetch('/session', { method: alive ? 'POST' : 'GET', cache: 'no-store' })
    return response.ok ? ((await response.json()) as SessionAnswer) : null
  } catch {
    return null
  }
}
