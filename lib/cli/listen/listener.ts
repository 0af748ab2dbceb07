import { createServer, type Server, type Socket } from 'node:net'
import { createServer as createSecureServer, type TlsOptions } from 'node:tls'
import type { MessageAnswer } from '../../usecases/index.ts'
import { type Closing, type Conversation, converse } from './connection.ts'
import type { ListenLimits } from './limits.ts'

export interface ListenPlace {
  readonly host: string
  /** 0: any that is free. */
  readonly port: number
  /** Null: without TLS. */
  readonly secure: TlsOptions | null
}

/** What becomes of what comes in. `from` is the sender's address, null where it is not known any more. */
export interface ListenWork {
  readonly accept: (bytes: Uint8Array, from: string | null) => Promise<MessageAnswer>
  /** A connection was closed without an acknowledgement. Never rejects. */
  readonly closed: (why: Closing | 'tls-handshake' | 'too-many-connections', from: string | null) => Promise<void>
}

export interface Listener {
  /** `127.0.0.1:2575` */
  readonly at: string
  /** Takes no further connection, lets every message in hand be acknowledged, and closes. */
  stop(): Promise<void>
}

const WHY: Readonly<Record<string, string>> = {
  EADDRINUSE: 'another program listens there',
  EACCES: 'this user may not listen there',
  EADDRNOTAVAIL: 'this machine has no such address',
  ENOTFOUND: 'there is no such host',
}

function listening(server: Server, { host, port }: ListenPlace): Promise<string> {
  return new Promise((resolve, reject) => {
    server.once('error', ({ code = '', message }: NodeJS.ErrnoException) => {
      reject(new Error(`${host}, port ${port}, cannot be listened on: ${WHY[code] ?? message}.`))
    })
    server.listen(port, host, () => {
      const at = server.address()
      if (at === null || typeof at === 'string') reject(new Error('The address that is listened on is not known.'))
      else resolve(at.family === 'IPv6' ? `[${at.address}]:${at.port}` : `${at.address}:${at.port}`)
    })
  })
}

/** Listens for messages framed by MLLP. Rejects with a sentence where the address cannot be had. */
export async function startListener(place: ListenPlace, work: ListenWork, limits: ListenLimits): Promise<Listener> {
  const { secure } = place
  const sockets = new Set<Socket>()
  const conversations = new Set<Conversation>()
  const told = new Set<Promise<void>>()
  // By the sender's end of it: a connection and the private one that is made of it are two objects.
  const served = new Set<string>()
  let isStopping = false

  function tell(...closed: Parameters<ListenWork['closed']>): void {
    const telling = work.closed(...closed).finally(() => told.delete(telling))
    told.add(telling)
  }

  const endOf = ({ remoteAddress, remotePort }: Socket): string => `${remoteAddress} ${remotePort}`

  function begin(socket: Socket): void {
    const from = socket.remoteAddress ?? null
    served.add(endOf(socket))
    const conversation = converse(socket, (bytes) => work.accept(bytes, from), limits)
    conversations.add(conversation)
    void conversation.ended.then((why) => {
      conversations.delete(conversation)
      if (why !== null) tell(why, from)
    })
  }

  // A sender may close its side once it has sent: it is answered all the same.
  const options = { allowHalfOpen: true, noDelay: true, handshakeTimeout: limits.handshakeMs, ...secure }
  const server: Server = secure === null ? createServer(options, begin) : createSecureServer(options, begin)
  server.maxConnections = limits.connections
  server.on('connection', (socket: Socket) => {
    const [from, end] = [socket.remoteAddress ?? null, endOf(socket)]
    sockets.add(socket)
    socket.once('close', () => {
      sockets.delete(socket)
      if (!served.delete(end) && secure !== null && !isStopping) tell('tls-handshake', from)
    })
  })
  server.on('drop', (dropped) => tell('too-many-connections', dropped?.remoteAddress ?? null))
  const at = await listening(server, place)
  // Without anybody listening an error of one connection would end the program.
  server.on('error', () => undefined)

  return {
    at,
    async stop() {
      isStopping = true
      const closed = new Promise<void>((resolve) => server.close(() => resolve()))
      for (const conversation of conversations) conversation.stop()
      await Promise.all([...conversations].map(({ ended }) => ended))
      for (const socket of sockets) socket.destroy()
      await closed
      await Promise.all(told)
    },
  }
}
