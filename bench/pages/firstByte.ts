import { get } from 'node:http'
import { gzipSync } from 'node:zlib'

/** What one answer took and weighed. Milliseconds from the request to the first byte of the body and to its end; bytes as written and gzipped. */
export interface Answered {
  readonly status: number
  readonly firstByteMs: number
  readonly wholeMs: number
  readonly bytes: number
  readonly gzipped: number
}

/** Asks once, without a browser, for what is not compressed. */
export function firstByte(url: string, cookie = ''): Promise<Answered> {
  return new Promise((resolve, reject) => {
    const began = performance.now()
    get(url, { headers: { cookie, 'accept-encoding': 'identity' } }, (response) => {
      const parts: Buffer[] = []
      let firstByteMs = 0
      response.on('data', (part: Buffer) => {
        if (parts.length === 0) firstByteMs = performance.now() - began
        parts.push(part)
      })
      response.on('end', () => {
        const body = Buffer.concat(parts)
        const wholeMs = performance.now() - began
        resolve({ status: response.statusCode ?? 0, firstByteMs, wholeMs, bytes: body.length, gzipped: gzipSync(body).length })
      })
    }).on('error', reject)
  })
}
