import { recheck as recheckCohort } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords } from '../words.ts'

export const recheck: Command = {
  words: ['recheck'],
  usage: '[--json]',
  does: 'evaluates every patient afresh and compares with what is stored; prints any difference',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await recheckCohort(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    const { patients, differences } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else {
      for (const { patientId, says } of differences) terminal.out(`${patientId}: ${says}\n`)
      terminal.out(`${patients} patients evaluated afresh, ${differences.length} differ from what is stored.\n`)
    }
    return differences.length === 0 ? 0 : 1
  },
}
