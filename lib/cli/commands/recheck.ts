import { recheck as recheckCohort, recheckStored } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords } from '../words.ts'

export const recheck: Command = {
  words: ['recheck'],
  usage: '[--json]',
  does: 'evaluates every patient afresh and compares with what is stored, and files and decisions with their digests; prints any difference',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const now = await call()
    const stored = await recheckStored(now)
    if (!stored.ok) throw new Error(stored.reason)
    const { files, decisions, unfinished, faults } = stored.value
    // What is damaged may not be readable enough to evaluate anybody.
    const evaluated = await recheckCohort(now, (sentence) => terminal.err(`${sentence}\n`)).catch((error: Error) => ({
      ok: false as const,
      reason: error.message,
    }))
    if (!evaluated.ok && faults.length === 0) throw new Error(evaluated.reason)
    const { patients, differences } = evaluated.ok ? evaluated.value : { patients: 0, differences: [] }
    if (values.json === true) printJson(terminal, { patients, differences, stored: { files, decisions, unfinished, faults } })
    else {
      for (const says of [...faults, ...unfinished]) terminal.out(`${says}\n`)
      for (const { patientId, says } of differences) terminal.out(`${patientId}: ${says}\n`)
      terminal.out(`${files} files and ${decisions} decisions read against their SHA-256, ${faults.length} faults.\n`)
      terminal.out(
        evaluated.ok
          ? `${patients} patients evaluated afresh, ${differences.length} differ from what is stored.\n`
          : `Nobody was evaluated afresh: ${evaluated.reason}. Restore a backup.\n`,
      )
    }
    return differences.length + faults.length === 0 ? 0 : 1
  },
}
