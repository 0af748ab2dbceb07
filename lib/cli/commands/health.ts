import { readHealth } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords } from '../words.ts'

export const health: Command = {
  words: ['health'],
  usage: '[--json]',
  does: 'what runs and what does not, what is wrong first; exit status 1 when something fails, 3 when something needs a look',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await readHealth(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    const { status, checks } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else
      terminal.out(
        textTable(
          ['state', 'what', 'says', 'limit'],
          checks.map(({ state, what, of, says, limit }) => [state, of === null ? what : `${what} ${of}`, says, limit]),
        ),
      )
    return status === 'fail' ? 1 : status === 'warn' ? 3 : 0
  },
}
