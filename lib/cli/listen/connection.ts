import type { Socket } from 'node:net'
import { type FrameFault, frameReader } from '../../intake/index.ts'
import type { MessageAnswer } from '../../usecases/index.ts'
import type { ListenLimits } from './limits.ts'

/** Why this side closed a connection without an acknowledgement. `header-unreadable`: the message is kept as a refused file. */
export type Closing = FrameFault | 'frame-cut-off' | 'frame-too-slow' | 'idle' | 'acknowledgement-not-read' | 'header-unreadable'

/** Takes one message and answers what to write; rejects where the connection cannot go on. */
export type Accept = (bytes: Uint8Array) => Promise<MessageAnswer>

export interface Conversation {
  /** Resolves when the connection has ended: with the reason where this side found one, null where all was well. */
  readonly ended: Promise<Closing | null>
  /** Ends it after the message in hand, at once where there is none. */
  stop(): void
}

// Long enough for an acknowledgement on its way; closing while unread bytes are there would take it back.
const FAREWELL_MS = 1_000

async function farewell(socket: Socket): Promise<void> {
  if (socket.destroyed) return
  await new Promise<void>((resolve) => {
    const timer = setTimeout(() => socket.destroy(), FAREWELL_MS)
    socket.once('close', () => {
      clearTimeout(timer)
      resolve()
    })
    socket.resume()
    socket.end()
  })
}

/** Serves one connection: message by message, the next one only after the acknowledgement of the one before has left. Never rejects. */
export function converse(socket: Socket, accept: Accept, limits: ListenLimits): Conversation {
  const reader = frameReader(limits.messageBytes)
  let [isBusy, isStopping] = [false, false]
  let late: Closing | null = null
  let timer: NodeJS.Timeout | undefined

  function allow(ms: number, otherwise: Closing): void {
    clearTimeout(timer)
    timer = setTimeout(() => {
      late = otherwise
      socket.destroy()
    }, ms)
  }

  async function write(bytes: Uint8Array): Promise<void> {
    allow(limits.acknowledgementMs, 'acknowledgement-not-read')
    await new Promise<void>((resolve, reject) => {
      socket.write(bytes, (error) => (error ? reject(error) : resolve()))
    })
    clearTimeout(timer)
  }

  async function take(message: Uint8Array): Promise<'go on' | 'stop' | 'header-unreadable'> {
    clearTimeout(timer)
    isBusy = true
    const { acknowledgement, isUnreadable } = await accept(message)
    if (acknowledgement !== null) await write(acknowledgement)
    isBusy = false
    if (isUnreadable) return 'header-unreadable'
    return isStopping ? 'stop' : 'go on'
  }

  async function serve(): Promise<Closing | null> {
    allow(limits.idleMs, 'idle')
    let wasInside = false
    for await (const chunk of socket.iterator({ destroyOnReturn: false })) {
      const { messages, fault } = reader.read(chunk as Uint8Array)
      for (const message of messages) {
        const next = await take(message)
        if (next !== 'go on') return next === 'stop' ? null : next
      }
      if (fault !== null) return fault
      const begins = reader.isInside() && (!wasInside || messages.length > 0)
      if (begins) allow(limits.messageMs, 'frame-too-slow')
      else if (!reader.isInside()) allow(limits.idleMs, 'idle')
      wasInside = reader.isInside()
    }
    return reader.isInside() ? 'frame-cut-off' : null
  }

  async function run(): Promise<Closing | null> {
    try {
      return await serve()
    } catch {
      // Lost from the other side, or closed from this one.
      if (isStopping) return null
      return late ?? (reader.isInside() ? 'frame-cut-off' : null)
    } finally {
      clearTimeout(timer)
      await farewell(socket)
    }
  }

  // An error ends the conversation where it waits; without anybody listening it would end the program.
  socket.on('error', () => undefined)
  return {
    ended: run(),
    stop() {
      isStopping = true
      if (!isBusy) socket.destroy()
    },
  }
}
