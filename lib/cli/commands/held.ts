import { heldRows, resolveHeld } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, textOf, WrongWords } from '../words.ts'

export const held: Command = {
  words: ['held'],
  usage: '[--json]',
  does: 'the queue of held rows, longest waiting first',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await heldRows(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, { held: outcome.value })
    else {
      const rows = outcome.value.map((row) => [String(row.heldId), row.patientId ?? '-', row.reason, `${row.fileName}:${row.line}`, row.sentence])
      terminal.out(textTable(['id', 'patient', 'reason', 'file:row', 'sentence'], rows))
    }
    return 0
  },
}

export const heldResolve: Command = {
  words: ['held', 'resolve'],
  usage: 'ID --file|--refuse --reason TEXT',
  does: 'files a held row as it now reads, or refuses it; the reason is kept',
  async run(args, { terminal, call }) {
    const options = { file: { type: 'boolean' }, refuse: { type: 'boolean' }, reason: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'ID' })
    if ((values.file === true) === (values.refuse === true)) throw new WrongWords('Say either --file or --refuse.')
    const reason = textOf(values, 'reason')?.trim() ?? ''
    if (reason === '') throw new WrongWords('--reason TEXT is missing: it says why, and is kept.')
    const id = words[0] ?? ''
    if (!/^\d{1,15}$/.test(id)) throw new WrongWords(`ID is the number the queue shows, not "${id}".`)
    const outcome = await resolveHeld(await call(), Number(id), values.file === true ? 'file' : 'refuse', reason)
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sentence}\n`)
    return 0
  },
}
