import { randomBytes, randomUUID } from 'node:crypto'
import { createServer, type IncomingMessage, type ServerResponse } from 'node:http'
import { fileURLToPath } from 'node:url'
import { clearSpools } from '../../lib/usecases/index.ts'
import { REMOTE_ADDRESS, REQUEST_ID, takeStatus } from './answers.ts'
import { callerAddress, trustedProxy } from './callerAddress.ts'
import { contentSecurityPolicy, securityHeaders } from './headers.ts'
import { listen } from './listen.ts'
import { readOpenIdSettings } from './openIdSettings.ts'
import { isKnownMethod, refusePlainly } from './plainRefusal.ts'
import { headSendingAsked, startSendingHeads } from './sendHeads.ts'
import { closeSharedStore } from './sharedStore.ts'

export interface Serving {
  readonly url: string
  /** Lets open requests end, then closes the pages and the database. */
  readonly close: () => Promise<void>
}

export interface ServeOptions {
  /** 0 takes any free port; without one, the first free from 3000 on. */
  readonly port?: number
  /** `file:...` */
  readonly databaseUrl: string
  readonly dev?: boolean
}

const ROOT = fileURLToPath(new URL('../..', import.meta.url))
// What a caller may not say about itself: these come from this server, or not at all.
const NOT_FROM_OUTSIDE = [
  REQUEST_ID,
  REMOTE_ADDRESS,
  'content-security-policy',
  'x-nonce',
  'x-forwarded-host',
  'x-forwarded-proto',
  'x-forwarded-for',
]

const PLAIN_TEXT = { 'Content-Type': 'text/plain; charset=utf-8', 'Cache-Control': 'private, no-store' } as const

function withoutForged(request: IncomingMessage): void {
  for (const name of NOT_FROM_OUTSIDE) delete request.headers[name]
}

/** The one place where a page's wish for 403 or 503 becomes the status, and where everything but built files is kept out of caches. */
function completeHead(request: IncomingMessage, response: ServerResponse, requestId: string): void {
  const writeHead = response.writeHead.bind(response) as (...given: unknown[]) => ServerResponse
  const built = request.url?.startsWith('/_next/static/') ?? false
  response.writeHead = ((status: number, ...rest: unknown[]) => {
    const asked = takeStatus(requestId)
    if (!built) response.setHeader('Cache-Control', 'private, no-store')
    // A page that failed because the database did says 500 by itself; asked for 503, it was no fault of the page.
    const replaced = status === 200 || (status === 500 && asked === 503)
    return writeHead(asked !== null && replaced ? asked : status, ...rest)
  }) as typeof response.writeHead
}

/**
 * Serves the built pages on 127.0.0.1. Reads NEXTAUTH_SECRET and NEXTAUTH_URL from the environment; without the second it takes its own
 * address. Answers only to its own names, so that a foreign name pointed at this machine reaches nothing. Sends the head of the log elsewhere where
 * LOWMARK_LOG_HEAD_TO says where; throws, with a sentence, where that setting is no place.
 */
export async function serve({ port, databaseUrl, dev = false }: ServeOptions): Promise<Serving> {
  const heads = headSendingAsked()
  Object.assign(process.env, { DATABASE_URL: databaseUrl, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: dev ? 'development' : 'production' })
  const singleSignOn = readOpenIdSettings()
  if ('problem' in singleSignOn) throw new Error(`Not started: ${singleSignOn.problem}`)
  // What a server left behind that ended while files were arriving.
  clearSpools()
  // Imported late: React and Next.js choose their production build by NODE_ENV when they are first loaded.
  const { default: next } = await import('next')
  const pages = next({ dev, dir: ROOT, hostname: '127.0.0.1' })
  await pages.prepare()
  const handle = pages.getRequestHandler()
  let names: readonly string[] = []
  const proxy = trustedProxy(process.env.LOWMARK_TRUSTED_PROXY)
  const overTls = process.env.NEXTAUTH_URL?.startsWith('https:') ?? false

  // A request without a name is refused by us, with our headers, and not by Node.
  const server = createServer({ requireHostHeader: false }, (request, response) => {
    const address = callerAddress(request.socket.remoteAddress, request.headers['x-forwarded-for'], proxy)
    withoutForged(request)
    const requestId = randomUUID()
    const policy = contentSecurityPolicy(randomBytes(16).toString('base64'), dev)
    request.headers[REQUEST_ID] = requestId
    request.headers[REMOTE_ADDRESS] = address
    request.headers['content-security-policy'] = policy
    response.setHeader('Content-Security-Policy', policy)
    response.setHeader('X-Request-Id', requestId)
    for (const [name, value] of securityHeaders(overTls)) response.setHeader(name, value)
    if (!names.includes(request.headers.host ?? '')) {
      response.writeHead(421, PLAIN_TEXT).end('This is not an address of Lowmark.\n')
      return
    }
    if (!isKnownMethod(request.method)) {
      response.writeHead(405, { ...PLAIN_TEXT, Allow: 'GET, HEAD, POST' }).end('Lowmark answers GET, HEAD and POST.\n')
      return
    }
    completeHead(request, response, requestId)
    response.once('close', () => takeStatus(requestId))
    void handle(request, response)
  })

  if (!dev) refusePlainly(server, overTls)
  const listening = await listen(server, port)
  const url = `http://127.0.0.1:${listening}`
  process.env.NEXTAUTH_URL ??= url
  names = [`127.0.0.1:${listening}`, `localhost:${listening}`, new URL(process.env.NEXTAUTH_URL).host]

  const headSending = heads === null ? null : startSendingHeads(heads, databaseUrl)
  let closing: Promise<void> | null = null
  const close = (): Promise<void> => {
    closing ??= (async () => {
      await new Promise<void>((resolve) => {
        server.close(() => resolve())
        server.closeIdleConnections()
      })
      await pages.close()
      await headSending?.stop()
      await closeSharedStore()
    })()
    return closing
  }
  for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, () => void close().then(() => process.exit(0)))
  return { url, close }
}
