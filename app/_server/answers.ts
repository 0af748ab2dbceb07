/**
 * The HTTP status a page asks for, by request id. Next.js lets a page answer 200, 404 or 500 only; a refused page is 403 and a page
 * whose log row cannot be written is 503. The server (plain Node) and the pages (bundled) are two copies of this file in one
 * process, so the map lives on globalThis.
 */
const KEY = Symbol.for('lowmark.answers')

export const REQUEST_ID = 'x-request-id'
export const REMOTE_ADDRESS = 'x-lowmark-address'

type Statuses = Map<string, number>

function statuses(): Statuses {
  const shared = globalThis as { [KEY]?: Statuses }
  shared[KEY] ??= new Map()
  return shared[KEY]
}

/** Makes the answer to this request carry `status` instead of 200. */
export function askForStatus(requestId: string, status: number): void {
  statuses().set(requestId, status)
}

/** The status asked for, once; null where none was. */
export function takeStatus(requestId: string): number | null {
  const asked = statuses().get(requestId) ?? null
  statuses().delete(requestId)
  return asked
}
