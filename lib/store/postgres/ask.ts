import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import type { Answered, Asked, Begun } from './asked.ts'

/** The server refused a statement, or cannot be reached. `code` is PostgreSQL's (SQLSTATE) or the operating system's. */
export class ServerFault extends Error {
  override readonly name = 'ServerFault'
  readonly code: string
  /** The connection is gone: what it had begun is undone by the server. */
  readonly lost: boolean

  constructor(message: string, code: string, lost: boolean) {
    super(message)
    this.code = code
    this.lost = lost
  }
}

interface Thread {
  readonly port: MessagePort
  readonly signal: Int32Array<SharedArrayBuffer>
}

let thread: Thread | null = null

// Loaded by the loader that needs nobody else's thread: whoever waits for the first answer stands still already. Both names are found from where the program
// runs. Where one cannot be loaded, that is the answer.
const SPEAK = `try {
  require('tsx/cjs')
  require('./lib/store/postgres/speak.ts')
} catch (error) {
  const { port, signal } = require('node:worker_threads').workerData
  port.postMessage({ kind: 'failed', message: String(error), code: 'EPIPE', lost: true })
  Atomics.store(signal, 0, 1)
  Atomics.notify(signal, 0)
}`

function begin(): Thread {
  const signal = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT))
  const { port1, port2 } = new MessageChannel()
  const begun: Begun = { port: port2, signal }
  const worker = new Worker(SPEAK, { eval: true, execArgv: [], workerData: begun, transferList: [port2] })
  // Whoever ends without closing its connections is not held back; the server undoes what was begun.
  worker.unref()
  return { port: port1, signal }
}

const LONGEST_WAIT_MS = 3_600_000

/** Asks the server and waits for the answer: this thread stands still meanwhile, as it does for a file. Throws ServerFault. */
export function ask(asked: Asked): Extract<Answered, { kind: 'rows' }> {
  thread ??= begin()
  const { port, signal } = thread
  Atomics.store(signal, 0, 0)
  port.postMessage(asked)
  if (Atomics.wait(signal, 0, 0, LONGEST_WAIT_MS) === 'timed-out')
    throw new ServerFault('The server has not answered for an hour.', 'ETIMEDOUT', true)
  const answered = receiveMessageOnPort(port)?.message as Answered | undefined
  if (answered === undefined) throw new ServerFault('The thread that speaks to the server ended.', 'EPIPE', true)
  if (answered.kind === 'failed') throw new ServerFault(answered.message, answered.code, answered.lost)
  return answered
}
