import { createServer, type IncomingMessage, request, type ServerResponse } from 'node:http'
import type { AddressInfo } from 'node:net'
import type { JWTPayload } from 'jose'
import { decodeJwt } from './tokens.ts'

type Document = Record<string, unknown>

/** What the stage changes of what the provider answers; nothing where it is empty. */
export interface Changes {
  /** The ID token to hand on instead of the one with these claims. */
  readonly token?: (claims: JWTPayload) => Promise<string> | string
  readonly discovery?: (document: Document) => Document
  /** A key published beside the provider's own. */
  readonly key?: Readonly<Document>
  /** Connections are cut without an answer. */
  readonly down?: true
}

/** A plain HTTP stage between Lowmark and the provider: the provider's address for everybody. */
export interface Stage {
  readonly issuer: string
  /** Every ID token that went through, changed or not. */
  readonly tokens: string[]
  changes: Changes
  /** Where the provider itself listens. */
  lead: (port: number) => void
  close: () => Promise<void>
}

async function read(stream: IncomingMessage): Promise<Buffer> {
  const parts: Buffer[] = []
  for await (const part of stream) parts.push(part as Buffer)
  return Buffer.concat(parts)
}

async function changed(path: string, body: Document, stage: Stage): Promise<Document> {
  const { token, discovery, key } = stage.changes
  if (path === '/token' && typeof body.id_token === 'string') {
    stage.tokens.push(body.id_token)
    if (token === undefined) return body
    const idToken = await token(decodeJwt(body.id_token))
    stage.tokens.push(idToken)
    return { ...body, id_token: idToken }
  }
  if (path === '/.well-known/openid-configuration' && discovery !== undefined) return discovery(body)
  if (path === '/jwks' && key !== undefined) return { keys: [key, ...(body.keys as unknown[])] }
  return body
}

async function pass(incoming: IncomingMessage, outgoing: ServerResponse, port: number, stage: Stage): Promise<void> {
  const sent = await read(incoming)
  const answer = await new Promise<IncomingMessage>((resolve, reject) => {
    const { url = '', method = 'GET', headers } = incoming
    request({ host: '127.0.0.1', port, path: url, method, headers }, resolve).on('error', reject).end(sent)
  })
  const body = await read(answer)
  const isJson = answer.headers['content-type']?.includes('json') ?? false
  const path = new URL(incoming.url ?? '', stage.issuer).pathname
  const bytes = isJson ? Buffer.from(JSON.stringify(await changed(path, JSON.parse(body.toString()) as Document, stage))) : body
  outgoing.writeHead(answer.statusCode ?? 500, { ...answer.headers, 'content-length': bytes.length }).end(bytes)
}

export async function openStage(): Promise<Stage> {
  let port = 0
  const server = createServer((incoming, outgoing) => {
    if (stage.changes.down) incoming.socket.destroy()
    else void pass(incoming, outgoing, port, stage).catch(() => incoming.socket.destroy())
  })
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  const stage: Stage = {
    issuer: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    tokens: [],
    changes: {},
    lead(to) {
      port = to
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        server.closeAllConnections()
      }),
  }
  return stage
}
