import type { Request } from 'playwright-core'

interface Cookie {
  readonly name: string
  readonly value: string
}

interface Again {
  readonly cookies: readonly Cookie[]
  readonly origin: string | null
  readonly words?: readonly (readonly [was: string, is: string])[]
  /** Where to, if not where it went. */
  readonly url?: string
}

/** Sends a form's action once more as a program would: with these cookies, this origin and, where named, other words in it. Answers what came back. */
export async function sendAgain(request: Request, { cookies, origin, words = [], url = request.url() }: Again): Promise<string> {
  const { 'next-action': action = '', 'content-type': type = '', accept = '' } = request.headers()
  const headers = {
    'next-action': action,
    'content-type': type,
    accept,
    cookie: cookies.map(({ name, value }) => `${name}=${value}`).join('; '),
    ...(origin === null ? {} : { origin }),
  }
  const sent = request.postDataBuffer()?.toString('latin1') ?? ''
  const body = words.reduce((text, [was, is]) => text.replaceAll(was, is), sent)
  return (await fetch(url, { method: 'POST', headers, body: Buffer.from(body, 'latin1') })).text()
}
