import { existsSync } from 'node:fs'
import { parseDay } from '../../time/index.ts'
import { exportLog, finishPart, type LogBound, retireLog, writePart } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords, textOf, type Values, WrongWords } from '../words.ts'

function boundOf(values: Values, name: string): LogBound | null {
  const text = textOf(values, name)
  if (text === null) return null
  if (/^\d{1,15}$/.test(text)) return { sequence: Number(text) }
  const day = parseDay(text)
  if (day === null) throw new WrongWords(`--${name} takes a day written YYYY-MM-DD or the number of an entry, not "${text}".`)
  return { day }
}

const TOLD_EVERY = 100_000

export const logExport: Command = {
  words: ['log', 'export'],
  usage: '[--from DAY|SEQUENCE] [--to DAY|SEQUENCE] FILE|-',
  does: 'entries of the log as FHIR R4 AuditEvent, one JSON document a line (NDJSON); - writes to standard output; days are UTC',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, { from: { type: 'string' }, to: { type: 'string' } }, { min: 1, max: 1, called: 'FILE' })
    const [file = '-', wish] = [words[0], { from: boundOf(values, 'from'), to: boundOf(values, 'to') }]
    if (file !== '-' && existsSync(file)) throw new Error(`"${file}" is there already. Name another file.`)
    const outcome = await exportLog(await call(), wish)
    if (!outcome.ok) throw new Error(outcome.reason)
    const { first, last, chunks } = outcome.value
    const all = last - first + 1
    let next = TOLD_EVERY
    const onRows = (done: number): void => {
      if (done < next) return
      terminal.err(`${done} of ${all} entries\n`)
      next += TOLD_EVERY
    }
    if (file === '-') {
      for (const text of chunks(onRows)) terminal.out(text)
      return 0
    }
    finishPart(file, writePart(file, chunks(onRows)))
    terminal.err(`Entries ${first} to ${last} are in "${file}".\n`)
    return 0
  },
}

export const logRetire: Command = {
  words: ['log', 'retire'],
  usage: '--before DAY --to FILE [--json]',
  does: 'moves entries of before a day, at least six years ago, from the log to a file that is verified first; the chain goes on from them',
  async run(args, { terminal, call }) {
    const options = { before: { type: 'string' }, to: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values } = readWords(args, options, { min: 0, max: 0, called: '' })
    const [before, file] = [parseDay(textOf(values, 'before') ?? ''), textOf(values, 'to') ?? '']
    if (before === null) throw new WrongWords('--before takes a day written YYYY-MM-DD.')
    if (file === '') throw new WrongWords('--to FILE is missing.')
    const outcome = await retireLog(await call(), { before, file, onProgress: (sentence) => terminal.err(`${sentence}\n`) })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { first, last, rows, sha256 } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`Entries ${first} to ${last} (${rows}) are in "${file}" and no longer in the database. SHA-256 of the file: ${sha256}\n`)
    terminal.err('Keep this file where the backups are: it is the only copy of these entries.\n')
    return 0
  },
}
