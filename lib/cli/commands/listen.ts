import type { TlsOptions } from 'node:tls'
import { acceptMessage, type Call, type ListeningEvent, type Outcome, recordListening } from '../../usecases/index.ts'
import type { Command, Session } from '../command.ts'
import { secureWith } from '../listen/certificates.ts'
import { isLoopback } from '../listen/isLoopback.ts'
import { LISTEN_LIMITS } from '../listen/limits.ts'
import { type ListenWork, startListener } from '../listen/listener.ts'
import { untilStopped } from '../listen/untilStopped.ts'
import { readWords, textOf, type Values, WrongWords } from '../words.ts'

const OPTIONS = {
  port: { type: 'string' },
  host: { type: 'string' },
  source: { type: 'string' },
  cert: { type: 'string' },
  key: { type: 'string' },
  ca: { type: 'string' },
  'without-tls': { type: 'boolean' },
} as const

const MOST_PORT = 65_535

function portOf(values: Values): number {
  const text = textOf(values, 'port')
  if (text === null) throw new WrongWords('--port N is missing.')
  if (!/^\d{1,5}$/.test(text) || Number(text) > MOST_PORT) throw new WrongWords(`--port takes a number from 0 to ${MOST_PORT}, not "${text}".`)
  return Number(text)
}

async function secureOf(values: Values, host: string): Promise<TlsOptions | null> {
  const [cert, key, ca] = [textOf(values, 'cert'), textOf(values, 'key'), textOf(values, 'ca')]
  if ((cert === null) !== (key === null)) throw new WrongWords('--cert FILE and --key FILE are given together.')
  if (ca !== null && cert === null) throw new WrongWords('--ca FILE needs --cert FILE and --key FILE.')
  if (cert !== null && key !== null) return secureWith({ cert, key, ca })
  if (isLoopback(host) || values['without-tls'] === true) return null
  throw new WrongWords(`Results sent to ${host} could be read on the way: give --cert FILE and --key FILE, or say --without-tls.`)
}

function granted<T>(outcome: Outcome<T>): T {
  if (!outcome.ok) throw new Error(outcome.reason)
  return outcome.value
}

/** What the listener does with what comes in; what goes wrong is a line on standard error that tells nothing of a message. */
function workOf({ terminal, call }: Session, source: string | null): ListenWork {
  const from = async (address: string | null): Promise<Call> => {
    const now = await call()
    return { ...now, actor: { ...now.actor, address } }
  }
  const say = (address: string | null, text: string) => terminal.err(`${address ?? 'unknown address'}: ${text}\n`)
  return {
    async accept(bytes, address) {
      try {
        const answer = granted(await acceptMessage(await from(address), bytes, source))
        if (answer.notAccepted !== null) say(address, `a message was not accepted (${answer.notAccepted})`)
        return answer
      } catch (error) {
        // The connection ends without an acknowledgement: whoever runs this must see that it did.
        say(address, `a message could not be taken (${error instanceof Error ? error.name : 'unknown'})`)
        throw error
      }
    },
    async closed(reason, address) {
      say(address, `a connection was closed without an acknowledgement (${reason})`)
      const event: ListeningEvent = { action: 'connection-closed', reason, source }
      await recordListening(await from(address), event).catch((error: Error) => say(address, `this could not be logged (${error.name})`))
    },
  }
}

async function logged(session: Session, event: ListeningEvent): Promise<void> {
  granted(await recordListening(await session.call(), event))
}

export const listen: Command = {
  words: ['listen'],
  usage: '--port N [--host ADDRESS] [--source NAME] [--cert FILE --key FILE] [--ca FILE] [--without-tls]',
  does: 'takes HL7 v2 messages from the network (MLLP) until it is stopped; loopback unless told otherwise',
  async run(args, session) {
    const { values } = readWords(args, OPTIONS, { min: 0, max: 0, called: '' })
    const [port, host, source] = [portOf(values), textOf(values, 'host') ?? '127.0.0.1', textOf(values, 'source')]
    const secure = await secureOf(values, host)
    await session.call()
    const listener = await startListener({ host, port, secure }, workOf(session, source), LISTEN_LIMITS)
    const asked = untilStopped()
    const { at } = listener
    const tls = secure === null ? 'none' : secure.ca === undefined ? 'server' : 'both'
    try {
      await logged(session, { action: 'listener-started', at, tls, source })
      session.terminal.err(
        `Listening on ${at} ${tls === 'none' ? 'without' : 'with'} TLS for HL7 v2 messages (MLLP). Stop it with Ctrl-C or SIGTERM.\n`,
      )
      await asked
    } finally {
      await listener.stop()
    }
    await logged(session, { action: 'listener-stopped', at, source })
    session.terminal.err(`Stopped listening on ${at}.\n`)
    return 0
  },
}
