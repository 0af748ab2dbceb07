import { begin } from './underWay.ts'

const AGAIN_MS = 3000

let wanted: string | null = null
let stopWaiting: (() => void) | null = null

/** Is the request one a person waits for: the next page of a link, or an action of a form? Next.js names both by a header. */
function kindOf(init: RequestInit | undefined): 'loading' | 'sending' | null {
  const headers = new Headers(init?.headers)
  if (headers.has('next-action')) return 'sending'
  return headers.has('rsc') && !headers.has('next-router-prefetch') ? 'loading' : null
}

function addressOf(input: RequestInfo | URL): string {
  return input instanceof Request ? input.url : String(input)
}

function pause(): Promise<void> {
  return new Promise((resolve) => {
    const timer = setTimeout(resolve, AGAIN_MS)
    stopWaiting = () => {
      clearTimeout(timer)
      resolve()
    }
  })
}

/**
 * Asks for a page until the server answers. Next.js would leave this page where it cannot be reached, for the browser's own page of an error, and what is
 * typed here would be gone. Only the page wanted last is asked for: null for one that nobody wants any more.
 */
async function untilAnswered(ask: () => Promise<Response>, address: string): Promise<Response | null> {
  wanted = address
  let end: (() => void) | null = null
  try {
    while (wanted === address) {
      try {
        return await ask()
      } catch (error) {
        if (!(error instanceof TypeError)) throw error
        end ??= begin('gone')
        await pause()
      }
    }
  } finally {
    end?.()
  }
  return null
}

/** Nobody waits any longer for the page that was wanted: this one stays. */
export function stopAsking(): void {
  wanted = null
  stopWaiting?.()
}

/** Watches what this page asks the server for, so that waiting is shown everywhere and no form and no link has to say so itself. Returns how to stop. */
export function watchRequests(): () => void {
  const plain = window.fetch
  const watched: typeof fetch = async (input, init) => {
    const kind = kindOf(init)
    if (kind === null) return plain(input, init)
    const end = begin(kind)
    try {
      const ask = (): Promise<Response> => plain(input, init)
      const response = kind === 'loading' ? await untilAnswered(ask, addressOf(input)) : await ask()
      if (response === null) {
        end()
        // Left without an answer: as a failure it would make Next.js leave this page.
        return new Promise(() => undefined)
      }
      // A page is streamed: it is there when its last byte is.
      void response
        .clone()
        .arrayBuffer()
        .catch(() => undefined)
        .finally(end)
      return response
    } catch (error) {
      end()
      throw error
    }
  }
  window.fetch = watched
  return () => {
    if (window.fetch === watched) window.fetch = plain
  }
}
