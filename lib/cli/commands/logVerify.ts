import { readFileSync } from 'node:fs'
import { type KeptHead, readHeads } from '../../trail/index.ts'
import { verifyExport, verifyLog, WHAT_TO_DO } from '../../usecases/index.ts'
import { type Command, type ExitStatus, printJson, type Terminal } from '../command.ts'
import { readWords, textOf, textsOf, type Values, WrongWords } from '../words.ts'

/** The heads of --head: one as NUMBER:HASH, or all in a file. Throws where a file holds none. */
function headsOf(values: Values): readonly KeptHead[] {
  const text = textOf(values, 'head')
  if (text === null) return []
  if (/^\d+:[0-9a-f]{64}$/.test(text)) return readHeads(text)
  const heads = readHeads(readFileSync(text, 'utf8'))
  if (heads.length === 0) throw new Error(`"${text}" holds no head of the log.`)
  return heads
}

function told({ firstBad, says, ...rest }: { firstBad: number | null; says: string }, values: Values, terminal: Terminal): ExitStatus {
  if (values.json === true) printJson(terminal, { ok: firstBad === null, firstBad, says, ...rest })
  else terminal.out(`${says}\n`)
  if (firstBad === null) return 0
  terminal.err(`${WHAT_TO_DO}\n`)
  return 1
}

export const logVerify: Command = {
  words: ['log', 'verify'],
  usage: '[--head FILE|SEQUENCE:HASH] [--file FILE]... [--joined] [--json]',
  does: 'checks the chain of the log and names the first row that does not fit; --head: against heads kept elsewhere; --file: an exported file by itself, or with --joined what was retired together with the log',
  async run(args, { terminal, call }) {
    const options = {
      head: { type: 'string' },
      file: { type: 'string', multiple: true },
      joined: { type: 'boolean' },
      json: { type: 'boolean' },
    } as const
    const { values } = readWords(args, options, { min: 0, max: 0, called: '' })
    const files = textsOf(values, 'file')
    const onProgress = (sentence: string): void => terminal.err(`${sentence}\n`)
    const [alone, ...more] = values.joined === true ? [] : files
    if (values.joined === true && files.length === 0) throw new WrongWords('--joined needs --file FILE.')
    if (more.length > 0) throw new WrongWords('Name one --file at a time, or say --joined for the files that were retired from this log.')
    const heads = headsOf(values)
    if (alone !== undefined) return told(verifyExport(alone, heads, onProgress), values, terminal)
    const outcome = await verifyLog(await call(), { heads, files, onProgress })
    if (!outcome.ok) throw new Error(outcome.reason)
    return told(outcome.value, values, terminal)
  },
}
