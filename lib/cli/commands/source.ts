import { readFile } from 'node:fs/promises'
import { readSource, readSources, saveProfile, tryProfile } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, reasonOf } from '../words.ts'

export const sourceList: Command = {
  words: ['source', 'list'],
  usage: '[--json]',
  does: 'the sources of results, what is set of each and how many of its rows wait',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await readSources(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, { sources: outcome.value })
    else {
      const rows = outcome.value.map(({ source, profile, files, waiting }) => {
        const version = profile === null ? '-' : String(profile.version)
        return [source, version, String(files), String(waiting), profile?.says.join('; ') || 'nothing set']
      })
      terminal.out(textTable(['source', 'version', 'files', 'waiting', 'set'], rows))
    }
    return 0
  },
}

export const sourceShow: Command = {
  words: ['source', 'show'],
  usage: 'NAME [--json|--file]',
  does: 'what is known of a source and its versions; --file prints the file that `source set` takes',
  async run(args, { terminal, call }) {
    const options = { json: { type: 'boolean' }, file: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'NAME' })
    const outcome = await readSource(await call(), words[0] ?? '')
    if (!outcome.ok) throw new Error(outcome.reason)
    const { source, version, says, examples, versions, waiting, file } = outcome.value
    if (values.file === true) printJson(terminal, file)
    else if (values.json === true) printJson(terminal, { source, version, waiting, file, versions })
    else {
      terminal.out(`${source}: ${version === null ? 'no profile, so nothing is assumed' : `version ${version}`}\n`)
      terminal.out(says.map((one) => `  ${one.asks}: ${one.says}\n`).join(''))
      terminal.out(examples.map((one) => `  "${one.text}" is ${one.says}\n`).join(''))
      terminal.out(versions.map((one) => `  version ${one.version}, ${one.madeAt}, ${one.madeBy}: ${one.reason}\n`).join(''))
    }
    return 0
  },
}

async function readProfileFile(path: string): Promise<unknown> {
  const text = await readFile(path, 'utf8').catch((error: NodeJS.ErrnoException) => {
    throw new Error(`"${path}" cannot be read: ${error.code === 'ENOENT' ? 'there is no such file' : error.message}.`)
  })
  try {
    return JSON.parse(text)
  } catch (error) {
    throw new Error(`"${path}" is no JSON: ${error instanceof Error ? error.message : String(error)}.`)
  }
}

export const sourceSet: Command = {
  words: ['source', 'set'],
  usage: 'FILE --reason TEXT [--dry-run] [--json]',
  does: 'saves a new version of what is known of a source, from a file; --dry-run reads the rows of it that wait and saves nothing',
  async run(args, { terminal, call }) {
    const options = { reason: { type: 'string' }, 'dry-run': { type: 'boolean' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'FILE' })
    const isDryRun = values['dry-run'] === true
    const reason = isDryRun ? '' : reasonOf(values)
    const given = await readProfileFile(words[0] ?? '')
    if (isDryRun) {
      const tried = await tryProfile(await call(), given)
      if (!tried.ok) throw new Error(tried.reason)
      if (values.json === true) printJson(terminal, { dryRun: true, ...tried.value })
      else terminal.out(`${tried.value.waiting} rows of it wait; ${tried.value.couldBeFiled} of them could be filed. Nothing was saved.\n`)
      return 0
    }
    const outcome = await saveProfile(await call(), { given, reason })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { source, version, differences } = outcome.value
    if (values.json === true) printJson(terminal, { source, version, differences })
    else {
      terminal.out(`Version ${version} of ${source} was saved; rows are read by it from now on.\n`)
      terminal.out(differences.map((one) => `  ${one.asks}: ${one.was} -> ${one.becomes}\n`).join(''))
    }
    return 0
  },
}
