import { readLogHead, verifyLog } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords } from '../words.ts'

export const logVerify: Command = {
  words: ['log', 'verify'],
  usage: '[--json]',
  does: 'checks the chain of the log and names the first row that does not fit',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await verifyLog(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    const { rows, firstBad, says } = outcome.value
    if (values.json === true) printJson(terminal, { ok: firstBad === null, rows, firstBad, says })
    else terminal.out(`${says}\n`)
    return firstBad === null ? 0 : 1
  },
}

export const logHead: Command = {
  words: ['log', 'head'],
  usage: '[--json]',
  does: 'the last sequence number and hash of the log, to be kept elsewhere',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await readLogHead(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sequence} ${outcome.value.hash}\n`)
    return 0
  },
}
