import { userInfo } from 'node:os'
import { databaseUrl } from '../../store/index.ts'
import { restoreBackup } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords, textOf } from '../words.ts'

export const restore: Command = {
  words: ['restore'],
  usage: 'FILE [--identity-file FILE] [--without-manifest] [--json]',
  does: 'makes the database of a backup where there is none, after checking all of it; never overwrites one',
  async run(args, { terminal }) {
    const options = { 'identity-file': { type: 'string' }, 'without-manifest': { type: 'boolean' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'FILE' })
    const outcome = await restoreBackup({
      file: words[0] ?? '',
      databaseUrl: databaseUrl(),
      identityFile: textOf(values, 'identity-file'),
      withoutManifest: values['without-manifest'] === true,
      user: userInfo().username,
      onStep: (says) => terminal.err(`${says}\n`),
    })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { database, head, sessionsEnded, codesEnded, recheck, logRows } = outcome.value
    if (values.json === true) printJson(terminal, { ...outcome.value, recheck: { patients: recheck.patients, differences: recheck.differences } })
    else
      terminal.out(
        `${database} is restored. Its log fits (${logRows} entries; the backup ended with entry ${head.sequence}, ${head.hash}).\n` +
          `${recheck.patients} patients evaluated afresh, ${recheck.differences.length} differ from what was stored.\n` +
          `${sessionsEnded} sessions and ${codesEnded} one-time codes ended.\n` +
          'What was done after the backup is not in it: send those files again, and look through the accounts, for one disabled since is enabled again.\n',
      )
    return recheck.differences.length > 0 ? 3 : 0
  },
}
