import { connect } from 'node:net'
import { beforeAll, describe, expect, it } from 'vitest'
import { type Clinic, signedInAs } from './clinic.ts'

/** The bytes of a request as somebody could send them; `{host}` and `{cookie}` are filled in. */
const RAW: readonly (readonly [name: string, status: number, bytes: string])[] = [
  ['a page', 200, 'GET /sign-in HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['the head of a page', 200, 'HEAD /sign-in HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['a page behind the sign-in', 307, 'GET /list HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['a page of another role', 403, 'GET /accounts HTTP/1.1\r\nHost: {host}\r\nCookie: {cookie}\r\n\r\n'],
  ['a page that is not there', 404, 'GET /nowhere HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['a file that is not there', 404, 'GET /_next/static/chunks/nowhere.js HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['a path that climbs out', 404, 'GET /_next/static/../../package.json HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['a path that cannot be decoded', 404, 'GET /%E0%A4%A HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['the picture of the browser tab', 200, 'GET /icon.svg HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['the library’s own word on the session', 404, 'GET /api/auth/session HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['an upload without a session', 403, 'POST /intake/upload HTTP/1.1\r\nHost: {host}\r\nContent-Length: 0\r\n\r\n'],
  ['an action nobody knows', 409, `POST /sign-in HTTP/1.1\r\nHost: {host}\r\nNext-Action: ${'a'.repeat(42)}\r\nContent-Length: 0\r\n\r\n`],
  ['another name of the machine', 421, 'GET /sign-in HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n'],
  ['no name at all', 421, 'GET /sign-in HTTP/1.1\r\n\r\n'],
  ['TRACE', 405, 'TRACE / HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['OPTIONS', 405, 'OPTIONS /list HTTP/1.1\r\nHost: {host}\r\nOrigin: https://elsewhere.example\r\n\r\n'],
  ['PUT', 405, 'PUT /list HTTP/1.1\r\nHost: {host}\r\nContent-Length: 0\r\n\r\n'],
  ['DELETE', 405, 'DELETE /list HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['CONNECT', 405, 'CONNECT elsewhere.example:443 HTTP/1.1\r\nHost: {host}\r\n\r\n'],
  ['another protocol', 400, 'GET / HTTP/1.1\r\nHost: {host}\r\nConnection: Upgrade\r\nUpgrade: websocket\r\n\r\n'],
  ['an expectation', 417, 'POST /sign-in HTTP/1.1\r\nHost: {host}\r\nExpect: the-moon\r\nContent-Length: 0\r\n\r\n'],
  ['two lengths', 400, 'POST /sign-in HTTP/1.1\r\nHost: {host}\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n'],
  ['a length beside chunks', 400, 'POST /sign-in HTTP/1.1\r\nHost: {host}\r\nContent-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n'],
  ['a header too long', 431, `GET / HTTP/1.1\r\nHost: {host}\r\nX-Long: ${'x'.repeat(20_000)}\r\n\r\n`],
  ['bytes that are no request', 400, '\u0016\u0003\u0001\u0002\u0000\u0001\u0000\r\n\r\n'],
]

function answerTo(url: string, bytes: string): Promise<string> {
  const { hostname, port } = new URL(url)
  return new Promise((resolve, reject) => {
    const socket = connect(Number(port), hostname, () => socket.write(Buffer.from(bytes, 'latin1')))
    let said = ''
    socket.setTimeout(20_000, () => socket.destroy())
    socket.on('data', (part) => {
      said += part.toString('latin1')
      if (said.includes('\r\n\r\n')) socket.end()
    })
    socket.on('error', reject)
    socket.on('close', () => resolve(said))
  })
}

function headersOf(answer: string): ReadonlyMap<string, string> {
  const lines = answer.slice(0, answer.indexOf('\r\n\r\n')).split('\r\n').slice(1)
  return new Map(lines.map((line) => [line.slice(0, line.indexOf(':')).toLowerCase(), line.slice(line.indexOf(':') + 1).trim()]))
}

/** Whatever is asked, and however badly: the answer carries the headers, keeps out of caches and says nothing of what is behind it. */
export function everyAnswer(clinic: () => Clinic): void {
  describe('every answer', () => {
    let cookie = ''
    beforeAll(async () => {
      const { context } = await signedInAs(clinic(), 'navigator')
      cookie = (await context.cookies()).map(({ name, value }) => `${name}=${value}`).join('; ')
      await context.close()
    })

    it.each(RAW)('to %s (%i) carries them', async (_, status, bytes) => {
      const { url } = clinic()
      const answer = await answerTo(url, bytes.replace('{host}', new URL(url).host).replace('{cookie}', cookie))
      expect(answer).toMatch(new RegExp(`^HTTP/1.1 ${status} `))
      const headers = headersOf(answer)
      const policy = headers.get('content-security-policy') ?? ''
      for (const part of ["object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'"]) expect(policy).toContain(part)
      expect(policy).not.toContain('unsafe')
      expect(headers.get('x-content-type-options')).toBe('nosniff')
      expect(headers.get('referrer-policy')).toBe('no-referrer')
      expect(headers.get('cross-origin-opener-policy')).toBe('same-origin')
      expect(headers.get('cross-origin-resource-policy')).toBe('same-origin')
      expect(headers.get('cache-control')).toMatch(/^private,.* no-store/)
      for (const telling of ['server', 'x-powered-by', 'access-control-allow-origin']) expect(headers.has(telling)).toBe(false)
      expect(answer).not.toMatch(/node_modules|at \w+ \(|lib\/usecases/)
    })

    it('to a built file may be kept, for nothing in it is anybody’s', async () => {
      const page = await (await fetch(`${clinic().url}/sign-in`)).text()
      const [, file = ''] = /src="(\/_next\/static\/[^"]+\.js)"/.exec(page) ?? []
      const answer = await fetch(clinic().url + file)
      expect([answer.status, answer.headers.get('cache-control')]).toEqual([200, 'public, max-age=31536000, immutable'])
      expect(answer.headers.get('x-content-type-options')).toBe('nosniff')
    })
  })
}
