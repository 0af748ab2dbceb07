import 'server-only'
import { randomUUID } from 'node:crypto'
import { headers } from 'next/headers'
import { askForStatus, REMOTE_ADDRESS, REQUEST_ID } from './answers.ts'

export interface RequestFacts {
  readonly requestId: string
  /** Where it came from, as the connection says; null where the server did not tell. */
  readonly address: string | null
}

/** What the log keeps of the request that is being answered. */
export async function requestFacts(): Promise<RequestFacts> {
  const given = await headers()
  return { requestId: given.get(REQUEST_ID) ?? randomUUID(), address: given.get(REMOTE_ADDRESS) }
}

/** Makes the page being rendered answer with `status`. */
export async function answerWith(status: 403 | 404 | 422 | 503): Promise<void> {
  askForStatus((await requestFacts()).requestId, status)
}

/** What is said where it did not. */
export const FROM_ELSEWHERE = 'This request did not come from a page of Lowmark.'

/**
 * Did this request come from a page of our own? Without an Origin it is refused. `Referrer-Policy: no-referrer` makes a plain form send
 * `Origin: null` (Fetch, "append a request Origin header"); then the browser's own Sec-Fetch-Site decides, which no script can set.
 */
export function isSameOrigin(given: Pick<Headers, 'get'>): boolean {
  const origin = given.get('origin')
  if (origin === 'null') return given.get('sec-fetch-site') === 'same-origin'
  return origin !== null && URL.canParse(origin) && new URL(origin).host === given.get('host')
}
