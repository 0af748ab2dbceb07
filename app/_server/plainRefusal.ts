import { type Server, STATUS_CODES } from 'node:http'
import type { Duplex } from 'node:stream'
import { securityHeaders } from './headers.ts'

const METHODS: readonly (string | undefined)[] = ['GET', 'HEAD', 'POST']
const POLICY = "default-src 'none'; object-src 'none'; base-uri 'none'; frame-ancestors 'none'"

/** Is this a way of asking that some page or route answers? Everything else (TRACE, PUT, OPTIONS, ...) is refused before anything reads it. */
export function isKnownMethod(method: string | undefined): boolean {
  return METHODS.includes(method)
}

/** An answer written by hand, for what never became a request: with the headers every answer carries, and no word of what was sent. */
function answerRaw(socket: Duplex, status: number, overTls: boolean): void {
  if (!socket.writable) {
    socket.destroy()
    return
  }
  const text = `${STATUS_CODES[status] ?? 'Refused'}\n`
  const head = [
    `HTTP/1.1 ${status} ${STATUS_CODES[status] ?? ''}`,
    'Connection: close',
    'Content-Type: text/plain; charset=utf-8',
    `Content-Length: ${Buffer.byteLength(text)}`,
    'Cache-Control: private, no-store',
    `Content-Security-Policy: ${POLICY}`,
    ...securityHeaders(overTls).map(([name, value]) => `${name}: ${value}`),
  ]
  socket.end(`${head.join('\r\n')}\r\n\r\n${text}`)
}

/** What Node would answer by itself, and without our headers: bytes that are no request, an expectation nobody meets, another protocol. */
export function refusePlainly(server: Server, overTls: boolean): void {
  server.on('clientError', (error: NodeJS.ErrnoException, socket) => {
    answerRaw(socket, error.code === 'HPE_HEADER_OVERFLOW' ? 431 : error.code === 'ERR_HTTP_REQUEST_TIMEOUT' ? 408 : 400, overTls)
  })
  server.on('checkExpectation', (request) => answerRaw(request.socket, 417, overTls))
  server.on('upgrade', (_, socket) => answerRaw(socket, 400, overTls))
  server.on('connect', (_, socket) => answerRaw(socket, 405, overTls))
}
