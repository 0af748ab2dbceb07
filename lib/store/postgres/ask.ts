import { MessageChannel, type MessagePort, receiveMessageOnPort, Worker } from 'node:worker_threads'
import type { Answered, Asked, Begun, Numbered } from './asked.ts'

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
  port.on('message', ({ number }) => {
    port.postMessage({ number, says: { kind: 'failed', message: String(error), code: 'EPIPE', lost: true } })
    Atomics.store(signal, 0, number)
    Atomics.notify(signal, 0)
  })
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

let asked = 0

/** The answer of one question; what a question nobody waits for any more was answered is passed over. */
function answerOf({ port }: Thread, number: number): Answered {
  for (;;) {
    const answered = receiveMessageOnPort(port)?.message as Numbered<Answered> | undefined
    if (answered === undefined) throw new ServerFault('The thread that speaks to the server ended.', 'EPIPE', true)
    if (answered.number === number) return answered.says
  }
}

/** Tells the server what nobody waits for. Where it failed, so will what is asked next. */
export function tell(says: Asked): void {
  thread ??= begin()
  thread.port.postMessage({ number: null, says } satisfies Numbered<Asked>)
}

/** Asks the server and waits for the answer: this thread stands still meanwhile, as it does for a file. Throws ServerFault. */
export function ask(says: Asked): Extract<Answered, { kind: 'rows' }> {
  thread ??= begin()
  const { port, signal } = thread
  const number = ++asked
  port.postMessage({ number, says } satisfies Numbered<Asked>)
  // It may be woken for the answer before: only the number tells whose it was.
  for (let last = Atomics.load(signal, 0); last !== number; last = Atomics.load(signal, 0)) {
    if (Atomics.wait(signal, 0, last, LONGEST_WAIT_MS) === 'timed-out')
      throw new ServerFault('The server has not answered for an hour.', 'ETIMEDOUT', true)
  }
  const answered = answerOf(thread, number)
  if (answered.kind === 'failed') throw new ServerFault(answered.message, answered.code, answered.lost)
  return answered
}
