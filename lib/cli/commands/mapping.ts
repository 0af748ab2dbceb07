import { listMappings, revokeMapping } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { textTable } from '../table.ts'
import { readWords, reasonOf, WrongWords } from '../words.ts'

export const mappingList: Command = {
  words: ['mapping', 'list'],
  usage: '[--json]',
  does: 'what texts of each source were decided to mean, with how many rows were filed so',
  async run(args, { terminal, call }) {
    const { values } = readWords(args, { json: { type: 'boolean' } }, { min: 0, max: 0, called: '' })
    const outcome = await listMappings(await call())
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, { mappings: outcome.value })
    else {
      const rows = outcome.value.map(({ id, source, kind, received, ofCode, meaning, rows, madeBy, revoked }) => {
        const text = ofCode === null ? received : `${received} beside ${ofCode}`
        return [String(id), source, kind, text, meaning, String(rows), madeBy, revoked === null ? 'in force' : `revoked by ${revoked.by}`]
      })
      terminal.out(textTable(['id', 'source', 'kind', 'received', 'means', 'rows', 'decided by', 'state'], rows))
    }
    return 0
  },
}

export const mappingRevoke: Command = {
  words: ['mapping', 'revoke'],
  usage: 'ID --reason TEXT',
  does: 'revokes a mapping; what was filed with it counts no longer and comes back into the queue',
  async run(args, { terminal, call }) {
    const options = { reason: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values, words } = readWords(args, options, { min: 1, max: 1, called: 'ID' })
    const reason = reasonOf(values)
    const [id = ''] = words
    if (!/^\d{1,15}$/.test(id)) throw new WrongWords(`ID is the number of a mapping, not "${id}".`)
    const outcome = await revokeMapping(await call(), { mappingId: Number(id), reason })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, outcome.value)
    else terminal.out(`${outcome.value.sentence}\n`)
    return 0
  },
}
