import { makeBackup, makeBackupKey, verifyBackup } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords, textOf, wholeNumberOf } from '../words.ts'

export const backup: Command = {
  words: ['backup'],
  usage: 'FILE|DIRECTORY [--keep N] [--recipient-file FILE] [--json]',
  does: 'a consistent copy of the database, verified before it gets its name; in a directory, removes all but the last N',
  async run(args, { terminal, call }) {
    const options = { keep: { type: 'string' }, 'recipient-file': { type: 'string' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'FILE or DIRECTORY' })
    const keep = textOf(values, 'keep') === null ? null : wholeNumberOf(values, 'keep', 1)
    const outcome = await makeBackup(await call(), { to: words[0] ?? '', keep, recipientFile: textOf(values, 'recipient-file') })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { file, manifest, removed, changed, problem, leftovers } = outcome.value
    for (const left of leftovers) terminal.err(`Took away what a backup ended half way had left: ${left}\n`)
    for (const one of changed) terminal.err(`${one} is no longer what was verified when it was made. Do not count on it.\n`)
    if (problem !== null) terminal.err(`Older backups could not be looked through and removed: ${problem}\n`)
    if (values.json === true) printJson(terminal, { path: file, ...manifest, removed, changed, leftovers })
    else
      terminal.out(
        `${file}: ${manifest.bytes} bytes, verified${manifest.encrypted ? ' and encrypted' : ''}; the log up to entry ${manifest.logHead.sequence}. ` +
          `${removed.length} older removed.\n`,
      )
    return changed.length > 0 || problem !== null ? 3 : 0
  },
}

export const backupVerify: Command = {
  words: ['backup', 'verify'],
  usage: 'FILE [--identity-file FILE] [--without-manifest] [--json]',
  does: 'checks a backup again; an encrypted one by its bytes alone unless its identity is given',
  async run(args, { terminal }) {
    const options = { 'identity-file': { type: 'string' }, 'without-manifest': { type: 'boolean' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'FILE' })
    const withoutManifest = values['without-manifest'] === true
    const outcome = await verifyBackup(words[0] ?? '', { identityFile: textOf(values, 'identity-file'), withoutManifest })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { checked, rows, logChecked, manifest } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else if (checked === 'bytes')
      terminal.out('Its bytes are those that were verified when it was made. It was not opened: give --identity-file FILE for that.\n')
    else
      terminal.out(
        `Whole: pages, references and ${Object.values(rows ?? {}).reduce((sum, n) => sum + n, 0)} rows` +
          `${logChecked === true ? ', and the log fits' : '; an older version made it, so its log is checked when it is restored'}` +
          `${manifest === null ? '. Without a manifest, a changed byte inside a row may not be noticed' : ''}.\n`,
      )
    return 0
  },
}

export const backupKey: Command = {
  words: ['backup', 'key'],
  usage: 'FILE [--json]',
  does: 'makes the identity that opens encrypted backups, in a new file, and prints the recipient to encrypt for',
  async run(args, { terminal }) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'FILE' })
    const outcome = await makeBackupKey(words[0] ?? '')
    if (!outcome.ok) throw new Error(outcome.reason)
    const { file, recipient } = outcome.value
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${recipient}\n`)
    terminal.err(
      `${file} is the identity: whoever has it reads every backup made for it, and without it nobody does. Keep it away from this machine, in two places.\n` +
        'The line above is the recipient: put it in a file of its own, which stays here for --recipient-file.\n',
    )
    return 0
  },
}
