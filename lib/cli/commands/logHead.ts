import { type HeadPlace, headPlace, LONGEST_EVERY, readLogHead, sendHead, sendHeadsEvery } from '../../usecases/index.ts'
import { type Command, printJson, type Session } from '../command.ts'
import { untilStopped } from '../listen/untilStopped.ts'
import { readWords, textOf, type Values, WrongWords, wholeNumberOf } from '../words.ts'

function placeOf(values: Values): HeadPlace | null {
  const text = textOf(values, 'to')
  if (text === null) return null
  const place = headPlace(text)
  if (typeof place === 'string') throw new WrongWords(place)
  return place
}

function everyOf(values: Values): number | null {
  if (textOf(values, 'every') === null) return null
  const seconds = wholeNumberOf(values, 'every', LONGEST_EVERY)
  if (seconds > LONGEST_EVERY) throw new WrongWords(`--every takes at most ${LONGEST_EVERY} seconds, a day.`)
  return seconds
}

async function keepSending(place: HeadPlace, seconds: number, { terminal, call }: Session): Promise<void> {
  const asked = untilStopped()
  await call()
  const sending = sendHeadsEvery(place, seconds, { call, onFailure: (sentence) => terminal.err(`${sentence}\n`) })
  terminal.err(`Sending the head of the log every ${seconds} seconds. Stop it with Ctrl-C or SIGTERM.\n`)
  await asked
  await sending.stop()
}

export const logHead: Command = {
  words: ['log', 'head'],
  usage: '[--to FILE|syslog:HOST:PORT|syslog+tcp:HOST:PORT] [--every SECONDS] [--json]',
  does: 'the last sequence number and hash of the log; --to sends them out of the database, where a cut or rewritten log shows against them',
  async run(args, session) {
    const { terminal, call } = session
    const options = { to: { type: 'string' }, every: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values } = readWords(args, options, { min: 0, max: 0, called: '' })
    const [place, seconds] = [placeOf(values), everyOf(values)]
    if (seconds !== null) {
      if (place === null) throw new WrongWords('--every SECONDS needs --to.')
      if (values.json === true) throw new WrongWords('Say either --every or --json.')
      await keepSending(place, seconds, session)
      return 0
    }
    const outcome = place === null ? await readLogHead(await call()) : await sendHead(await call(), place)
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sequence} ${outcome.value.hash}\n`)
    return 0
  },
}
