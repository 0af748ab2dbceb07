import { fillDemonstration } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords, wholeNumberOf } from '../words.ts'

export const demo: Command = {
  words: ['demo'],
  usage: '[--patients N] [--years N] [--seed N] [--json]',
  does: 'fills an empty database with the invented cohort',
  async run(args, { terminal, call }) {
    const options = { patients: { type: 'string' }, years: { type: 'string' }, seed: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values } = readWords(args, options, { min: 0, max: 0, called: '' })
    const wish = {
      patients: wholeNumberOf(values, 'patients', 400),
      years: wholeNumberOf(values, 'years', 8),
      seed: wholeNumberOf(values, 'seed', 20_261_125, 0),
    }
    const outcome = await fillDemonstration(await call(), {
      ...wish,
      onProgress: ({ step, done, of }) => terminal.err(`${step}: ${done} of ${of}\n`),
    })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { patients, rows, held, refused } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${patients} invented patients, ${rows} rows read, ${held} held and ${refused} refused on purpose.\n`)
    return 0
  },
}
