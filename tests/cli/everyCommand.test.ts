import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { may, type Permission, ROLES, type Role } from '../../lib/access/index.ts'
import { COMMANDS } from '../../lib/cli/commands/index.ts'
import type { Store } from '../../lib/store/index.ts'
import { freshStore } from '../store/freshStore.ts'
import { callOf, logged } from '../usecases/accounts/persons.ts'
import { csv, patientRow, resultRow, take } from '../usecases/clinic.ts'

type Who = Role | 'none'
const EVERYBODY: readonly Who[] = [...ROLES, 'none']

interface Asked {
  /** What it asks for; `console`: for whoever keeps the machine, and no role; `nothing`: it opens no database. */
  readonly needs: Permission | 'console' | 'nothing'
  readonly args: readonly string[]
  /** Not begun here by whoever may, because it goes on until it is ended (listener.test.ts begins it). */
  readonly endless?: true
}

let folder: string
const FILE = 'one.csv'
const PROFILE = 'profile.json'
const NEW = 'not-there-yet'
const REASON = ['--reason', 'a test']

/** Every command: what it asks for, and words to begin it with. They name what is not there, so that nothing is changed by those who may. */
const ASKED: Readonly<Record<string, Asked>> = {
  intake: { needs: 'intake.write', args: [FILE, '--dry-run'] },
  listen: { needs: 'intake.write', args: ['--port', '0', '--without-tls'], endless: true },
  'source list': { needs: 'sources.read', args: [] },
  'source show': { needs: 'sources.read', args: ['North'] },
  'source set': { needs: 'sources.write', args: [PROFILE, ...REASON] },
  held: { needs: 'held.read', args: [] },
  'held show': { needs: 'held.read', args: ['999'] },
  'held resolve': { needs: 'held.resolve', args: ['999', '--refuse', ...REASON] },
  'held confirm': { needs: 'held.identify', args: ['999'] },
  'held decline': { needs: 'held.identify', args: ['999', ...REASON] },
  'mapping list': { needs: 'held.read', args: [] },
  'mapping revoke': { needs: 'mapping.revoke', args: ['999', ...REASON] },
  list: { needs: 'list.read', args: [] },
  patient: { needs: 'patient.read', args: ['P1'] },
  'follow-up': { needs: 'followup.read', args: ['--from', '2026-01-01', '--to', '2026-06-30'] },
  'merge propose': { needs: 'patient.merge', args: ['P9', 'P1', ...REASON] },
  'merge confirm': { needs: 'patient.merge', args: ['999'] },
  'merge decline': { needs: 'patient.merge', args: ['999'] },
  'merge end': { needs: 'patient.merge', args: ['999', ...REASON] },
  'merge list': { needs: 'patient.merge', args: [] },
  recheck: { needs: 'console', args: [] },
  'log verify': { needs: 'log.read-all', args: [] },
  'log head': { needs: 'log.read-all', args: [] },
  'log export': { needs: 'log.export', args: ['-'] },
  'log retire': { needs: 'console', args: ['--before', '2020-01-01', '--to', NEW] },
  backup: { needs: 'console', args: [NEW] },
  'backup verify': { needs: 'console', args: [FILE] },
  'backup key': { needs: 'nothing', args: [NEW] },
  restore: { needs: 'console', args: [FILE] },
  move: { needs: 'console', args: ['to-no-server'] },
  health: { needs: 'health.read', args: [] },
  'account reset-factor': { needs: 'accounts.manage', args: ['nobody'] },
  'account add': { needs: 'accounts.manage', args: ['--role', 'quality', '--name', 'one more'] },
  'account join': { needs: 'accounts.manage', args: ['nobody'] },
  'account unjoin': { needs: 'accounts.manage', args: ['nobody'] },
  'account disable': { needs: 'accounts.manage', args: ['nobody'] },
  demo: { needs: 'console', args: [] },
}

let store: Store
let dispose: () => Promise<void>
beforeAll(async () => {
  ;({ store, dispose } = await freshStore())
  folder = mkdtempSync(join(tmpdir(), 'lowmark-commands-'))
  writeFileSync(join(folder, PROFILE), '{}')
  writeFileSync(join(folder, FILE), 'patient_id,birth_date,sex\nP2,1950,female\n')
  await take(store, [csv('patients.csv', [patientRow()]), csv('r.csv', [resultRow()])])
})
afterAll(async () => {
  await dispose()
  rmSync(folder, { recursive: true })
})

async function run(words: string, who: Who): Promise<{ readonly out: string; readonly reason: string }> {
  const command = COMMANDS.find((one) => one.words.join(' ') === words)
  if (command === undefined) throw new Error(`there is no command ${words}`)
  const args = (ASKED[words]?.args ?? []).map((word) => ([FILE, PROFILE, NEW].includes(word) ? join(folder, word) : word))
  let [out, err] = ['', '']
  const terminal = {
    out: (text: string) => {
      out += text
    },
    err: (text: string) => {
      err += text
    },
  }
  try {
    const status = await command.run(args, { terminal, call: async () => callOf(store, who) })
    return { out, reason: status === 0 || status === 3 ? '' : err }
  } catch (error) {
    return { out, reason: error instanceof Error ? error.message : String(error) }
  }
}

test('every command is in the table, once', () => {
  expect(Object.keys(ASKED).toSorted()).toEqual(COMMANDS.map(({ words }) => words.join(' ')).toSorted())
})

describe.each(Object.entries(ASKED))('%s', (words, { needs, endless = false }) => {
  const allowed = (who: Who): boolean => needs === 'nothing' || (needs !== 'console' && may(who === 'none' ? null : who, needs).allowed)
  test.each(EVERYBODY.filter((who) => !allowed(who)))('is refused to %s, says nothing else and is in the log', async (who) => {
    const before = logged(store).length
    const { out, reason } = await run(words, who)
    expect(out).toBe('')
    const because = needs === 'console' ? /.{20}/ : who === 'none' ? /^Sign in first\.$/ : new RegExp(`^The role ${who} does not include this \\(`)
    expect(reason).toMatch(because)
    const row = { actor: `a ${who}`, role: who, action: 'access-refused', outcome: 'failure' }
    expect(logged(store).slice(before)).toEqual(needs === 'console' ? [] : [row])
  })

  test.each(EVERYBODY.filter((who) => allowed(who) && !endless))('is not refused to %s', async (who) => {
    expect((await run(words, who)).reason).not.toMatch(/does not include this|Sign in first/)
  })
})
