import { parseDay } from '../../time/index.ts'
import { exportFindings, exportList, listDocument } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, textOf, type Values, WrongWords } from '../words.ts'

/** The day after --as-of, or null where it was not given. */
export function asOfDay(values: Values): ReturnType<typeof parseDay> {
  const text = textOf(values, 'as-of')
  if (text === null) return null
  const asOf = parseDay(text)
  if (asOf === null) throw new WrongWords(`--as-of takes a day written YYYY-MM-DD, not "${text}".`)
  return asOf
}

export const list: Command = {
  words: ['list'],
  usage: '[--as-of DAY] [--json|--csv [--findings]]',
  does: 'the review list: all followed patients, soonest look first, each with its reason',
  async run(args, { terminal, call }) {
    const { values } = readWords(
      args,
      { 'as-of': { type: 'string' }, json: { type: 'boolean' }, csv: { type: 'boolean' }, findings: { type: 'boolean' } },
      { min: 0, max: 0, called: '' },
    )
    const asOf = asOfDay(values)
    if (values.findings === true && values.csv !== true) throw new WrongWords('--findings goes with --csv; --json has the findings of everybody.')
    if (values.csv === true) {
      if (values.json === true) throw new WrongWords('Say either --json or --csv.')
      const file = await (values.findings === true ? exportFindings : exportList)(await call(), { asOf })
      if (!file.ok) throw new Error(file.reason)
      terminal.out(file.value.text)
      return 0
    }
    const outcome = await listDocument(await call(), asOf)
    if (!outcome.ok) throw new Error(outcome.reason)
    const document = outcome.value
    if (values.json === true) printJson(terminal, document)
    else {
      const rows = document.patients.map((row) => [String(row.position), row.patientId, row.window, row.phase, row.nextDueOn ?? '-', row.why])
      terminal.out(textTable(['#', 'patient', 'window', 'phase', 'next due', 'why'], rows))
      terminal.err('Lowmark flags for review. It does not diagnose, attribute or treat; local protocol and the treating physician decide.\n')
    }
    return 0
  },
}
