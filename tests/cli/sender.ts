import { connect, type Socket } from 'node:net'
import { type ConnectionOptions, connect as connectSecurely } from 'node:tls'
import { framed, frameReader } from '../../lib/intake/index.ts'

/** A laboratory's side of one connection. */
export interface Sender {
  readonly socket: Socket
  /** Sends a message in its frame and answers the acknowledgement; null where the connection ended without one. */
  send(text: string): Promise<string | null>
  /** The next acknowledgement; null where the connection ended without one. */
  next(): Promise<string | null>
  /** Sends bytes as they are. */
  write(bytes: string | Uint8Array): void
  /** Resolves when the connection has ended, with what was received and not asked for. */
  readonly ended: Promise<readonly string[]>
  close(): void
}

/** Connects to a listener of this machine. */
export function sender(port: number, secure: ConnectionOptions | null = null): Sender {
  const place = { host: '127.0.0.1', port }
  const socket = secure === null ? connect(place) : connectSecurely({ ...place, ...secure })
  const reader = frameReader()
  const received: string[] = []
  const waiting: ((text: string | null) => void)[] = []
  let isOpen = true
  socket.on('data', (chunk: Uint8Array) => {
    const { messages, fault } = reader.read(chunk)
    if (fault !== null) throw new Error(`an acknowledgement is not framed: ${fault}`)
    for (const message of messages) {
      const text = new TextDecoder().decode(message)
      const next = waiting.shift()
      if (next === undefined) received.push(text)
      else next(text)
    }
  })
  // A connection that is refused or lost ends without an acknowledgement; `ended` tells it.
  socket.on('error', () => undefined)
  const ended = new Promise<readonly string[]>((resolve) => {
    socket.once('close', () => {
      isOpen = false
      for (const next of waiting.splice(0)) next(null)
      resolve(received)
    })
  })
  function next(): Promise<string | null> {
    const ready = received.shift()
    if (ready !== undefined) return Promise.resolve(ready)
    return isOpen ? new Promise((resolve) => waiting.push(resolve)) : Promise.resolve(null)
  }
  return {
    socket,
    send(text) {
      socket.write(framed(text))
      return next()
    },
    next,
    write: (bytes) => void socket.write(bytes),
    ended,
    close: () => socket.destroy(),
  }
}

/** The code and the control id of an acknowledgement, `AA M1`; null where there is none. */
export function told(acknowledgement: string | null): string | null {
  const msa = acknowledgement?.split('\r').find((segment) => segment.startsWith('MSA'))
  return msa === undefined ? null : msa.split(msa.charAt(3)).slice(1, 3).join(' ')
}
