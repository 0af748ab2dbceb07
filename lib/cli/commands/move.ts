import { userInfo } from 'node:os'
import { databaseUrl, shownAddress } from '../../store/index.ts'
import { moveToServer } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords } from '../words.ts'

export const move: Command = {
  words: ['move'],
  usage: 'postgresql://USER@HOST/NAME [--json]',
  does: 'moves the database from its file into an empty one on a PostgreSQL server, and compares every cell, the log and every patient there',
  async run(args, { terminal }) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'ADDRESS' })
    const to = words[0] ?? ''
    const outcome = await moveToServer({ from: databaseUrl(), to, user: userInfo().username, onStep: (says) => terminal.err(`${says}\n`) })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { tables, head, logRows, recheck } = outcome.value
    if (values.json === true)
      printJson(terminal, { ...outcome.value, to: shownAddress(to), recheck: { patients: recheck.patients, differences: recheck.differences } })
    else
      terminal.out(
        `${tables.reduce((sum, table) => sum + table.rows, 0)} rows of ${tables.length} tables are on the server, each cell compared.\n` +
          `The log fits (${logRows} entries; in the file it ended with entry ${head.sequence}, ${head.hash}).\n` +
          `${recheck.patients} patients evaluated afresh, ${recheck.differences.length} differ from what was stored.\n` +
          `Set DATABASE_URL to ${shownAddress(to)} on every host. Keep the file as it is, and let nothing write to it any more.\n`,
      )
    return recheck.differences.length > 0 ? 3 : 0
  },
}
