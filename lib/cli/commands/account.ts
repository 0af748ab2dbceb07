import { ROLES } from '../../access/index.ts'
import { addAccount, disableAccount, giveCode, takeFactorAway, unjoinAccount } from '../../usecases/index.ts'
import { type Command, printJson } from '../command.ts'
import { readWords, textOf, WrongWords } from '../words.ts'

export const accountAdd: Command = {
  words: ['account', 'add'],
  usage: '--role navigator|physician|quality|administrator --name NAME',
  does: 'adds an account and prints its one-time code; the person chooses the password in the browser',
  async run(args, { terminal, call }) {
    const options = { role: { type: 'string' }, name: { type: 'string' }, json: { type: 'boolean' } } as const
    const { values } = readWords(args, options, { min: 0, max: 0, called: '' })
    const name = textOf(values, 'name')?.trim() ?? ''
    const role = ROLES.find((known) => known === textOf(values, 'role'))
    if (name === '') throw new WrongWords('--name NAME is missing.')
    if (role === undefined) throw new WrongWords(`--role takes one of ${ROLES.join(', ')}.`)
    const outcome = await addAccount(await call(), { name, role })
    if (!outcome.ok) throw new Error(outcome.reason)
    if (values.json === true) printJson(terminal, { name, role, code: outcome.value.code, expiresAt: outcome.value.expiresAt })
    else
      terminal.out(
        `Account ${name} (${role}). One-time code, shown once: ${outcome.value.code}\nIt is good until ${outcome.value.expiresAt}; use it at /activate.\n`,
      )
    return 0
  },
}

export const accountDisable: Command = {
  words: ['account', 'disable'],
  usage: 'NAME',
  does: 'disables an account; its sessions end at once',
  async run(args, { terminal, call }) {
    const { words } = readWords(args, {}, { min: 1, max: 1, called: 'NAME' })
    const outcome = await disableAccount(await call(), { name: words[0] ?? '' })
    if (!outcome.ok) throw new Error(outcome.reason)
    terminal.out(`Account ${words[0]} is disabled; its sessions have ended.\n`)
    return 0
  },
}

export const accountJoin: Command = {
  words: ['account', 'join'],
  usage: 'NAME [--json]',
  does: 'gives an account a one-time code with which its person joins it to single sign-on; its sessions end at once',
  async run(args, { terminal, call }) {
    const { values, words } = readWords(args, { json: { type: 'boolean' } }, { min: 1, max: 1, called: 'NAME' })
    const name = words[0] ?? ''
    const outcome = await giveCode(await call(), { name })
    if (!outcome.ok) throw new Error(outcome.reason)
    const { code, expiresAt } = outcome.value
    if (values.json === true) printJson(terminal, { name, code, expiresAt })
    else terminal.out(`One-time code of ${name}, shown once: ${code}\nIt is good until ${expiresAt}; use it at /activate, with single sign-on.\n`)
    return 0
  },
}

export const accountUnjoin: Command = {
  words: ['account', 'unjoin'],
  usage: 'NAME',
  does: 'ends what joins an account to single sign-on; its sessions end at once',
  async run(args, { terminal, call }) {
    const { words } = readWords(args, {}, { min: 1, max: 1, called: 'NAME' })
    const outcome = await unjoinAccount(await call(), { name: words[0] ?? '' })
    if (!outcome.ok) throw new Error(outcome.reason)
    terminal.out(`Account ${words[0]} is no longer joined to single sign-on; its sessions have ended.\n`)
    return 0
  },
}

export const accountResetFactor: Command = {
  words: ['account', 'reset-factor'],
  usage: 'NAME',
  does: 'takes a lost second factor away from an account, with its recovery codes; its sessions end at once',
  async run(args, { terminal, call }) {
    const { words } = readWords(args, {}, { min: 1, max: 1, called: 'NAME' })
    const outcome = await takeFactorAway(await call(), { name: words[0] ?? '' })
    if (!outcome.ok) throw new Error(outcome.reason)
    terminal.out(`Account ${words[0]} has no second factor any more; its sessions have ended.\n`)
    return 0
  },
}
