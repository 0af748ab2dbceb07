import type { Request } from 'playwright-core'

interface Cookie {
  readonly name: string
  readonly value: string
}

/** Sends a form's action once more as a program would: with these cookies, this origin and, where named, other words in it. Answers what came back. */
export async function sendAgain(
  request: Request,
  { cookies, origin, words = [] }: { cookies: readonly Cookie[]; origin: string | null; words?: readonly (readonly [was: string, is: string])[] },
): Promise<string> {
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
  return (await fetch(request.url(), { method: 'POST', headers, body: Buffer.from(body, 'latin1') })).text()
}
