import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { once } from 'node:events'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { patientPath } from '../pages/clinic.ts'
import { refuseRows } from '../store/guards.ts'
import { fromOutside } from '../store/outside.ts'
import { tableNames } from '../store/tables.ts'
import { bundled } from './bundled.ts'
import { startChild } from './child.ts'
import { fileOf } from './clinicWork.ts'
import { clinicIn, ownFolder } from './damagedClinic.ts'
import { freePort } from './freePort.ts'
import { lawHolds, NOTHING } from './law.ts'
import { act, page, type Served, serveClinic, signInOver, upload, withPeople } from './served.ts'

// A few seconds each; the bound is for a machine that is busy with other things.
vi.setConfig({ testTimeout: 240_000 })

let own: ReturnType<typeof ownFolder>
let url: string
let key: string
let served: Served
const cookies = new Map<Role, string>()
const cookieOf = (role: Role) => cookies.get(role) ?? ''

beforeAll(async () => {
  own = ownFolder()
  url = await clinicIn(own.folder)
  key = await withPeople(url)
  served = await serveClinic(url)
  for (const role of ['navigator', 'physician', 'quality', 'administrator'] as const) cookies.set(role, await signInOver(served, role))
})
afterAll(async () => {
  await served?.stop()
  own?.remove()
})

/** The log is full, until what this answers is called. */
function fillLog(): () => void {
  const db = fromOutside(url)
  const takeAgain = refuseRows(db, { table: 'trail', says: 'the log is full' })
  return () => {
    takeAgain()
    db.close()
  }
}
const now = () => new Date().toISOString()

/** Everything stored but the signs of life of sessions. */
function stored(): string {
  const db = fromOutside(url, { reading: true })
  const tables = tableNames(db).filter((name) => name !== 'session')
  const rows = tables.map((name) => [name, db.value(`SELECT count(*) FROM "${name}"`)])
  const accounts = db.all('SELECT name, role, disabled_at, failures FROM account ORDER BY id')
  const held = db.all('SELECT id, resolved_at FROM held_row ORDER BY id')
  db.close()
  return JSON.stringify([rows, accounts, held])
}

// What stands in the answer of the page when it is shown, to tell that nothing of it is when it is not.
const PATIENTS = ['P1', 'P2', '1950-03-12', 'haemoglobin', '"100"']
const pages = (): readonly (readonly [path: string, role: Role])[] => [
  ['/list', 'navigator'],
  [patientPath({ databaseUrl: url }, 'P1'), 'physician'],
  ['/merges', 'physician'],
  ['/cohort', 'quality'],
  ['/log', 'quality'],
]

test('while the log cannot be written, pages whose reading is an entry answer 503 with nothing of a patient, and show it again afterwards', async () => {
  for (const [path, role] of pages()) expect([path, (await page(served, cookieOf(role), path)).status]).toEqual([path, 200])
  const logAgain = fillLog()
  try {
    for (const [path, role] of pages()) {
      const answer = await page(served, cookieOf(role), path)
      const text = await answer.text()
      expect([path, answer.status]).toEqual([path, 503])
      for (const word of PATIENTS) expect([path, text.includes(word)]).toEqual([path, false])
    }
    for (const [path, role] of [
      ['/accounts', 'navigator'],
      ['/intake', 'quality'],
      ['/sources', 'quality'],
      ['/held', 'quality'],
      ['/list', 'administrator'],
    ] as const) {
      // A refusal is an entry of the log as well.
      expect([path, (await page(served, cookieOf(role), path)).status]).toEqual([path, 503])
    }
  } finally {
    logAgain()
  }
  for (const [path, role] of pages()) expect([path, (await page(served, cookieOf(role), path)).status]).toEqual([path, 200])
})

test('while the log cannot be written, every route handler refuses with 503 and changes nothing', async () => {
  const before = stored()
  const logAgain = fillLog()
  try {
    const sent = async (path: string, role: Role, headers: Readonly<Record<string, string>> = {}, body = new FormData()) => {
      const answer = await fetch(`${served.url}${path}`, {
        method: 'POST',
        headers: { cookie: cookieOf(role), origin: served.url, ...headers },
        body,
      })
      return { status: answer.status, text: await answer.text() }
    }
    const exported = await sent('/list/export', 'navigator')
    expect([exported.status, exported.text]).toEqual([503, expect.not.stringContaining('P1')])
    for (const [path, role] of [
      ['/list/export', 'quality'],
      ['/intake/upload', 'quality'],
      ['/plan/try', 'navigator'],
    ] as const) {
      expect([path, (await sent(path, role)).status]).toEqual([path, 503])
    }
    const profile = await page(served, cookieOf('quality'), '/sources/tests/file')
    expect(profile.status).toBe(503)
    const uploaded = await (await upload(served, cookieOf('navigator'), fileOf('refused', 1))).text()
    expect(uploaded).toMatch(/"ok":false,"kind":"unavailable"/)
    await expect(signInOver(served, 'physician')).rejects.toThrow('not signed in')
  } finally {
    logAgain()
  }
  expect(stored()).toBe(before)
})

/** Some of the actions with forms that are right; all of them go one way (`tests/pages/walk.ts`). */
const ACTIONS: readonly (readonly [name: string, role: Role, fields: Readonly<Record<string, string>>])[] = [
  ['answerFinding', 'navigator', { patientId: 'P1', rule: 'relapse-haemoglobin', did: 'seen', note: 'looked', bringBackOn: '' }],
  ['recordCause', 'physician', { patientId: 'P1', rule: 'relapse-haemoglobin', cause: 'bleeding' }],
  ['excludeValue', 'physician', { patientId: 'P1', resultId: '3', reason: 'clotted sample' }],
  ['proposePatientMerge', 'navigator', { fromId: 'P2', intoId: 'P1', reason: 'one person' }],
  ['addPerson', 'administrator', { name: 'somebody', role: 'quality' }],
  ['changePersonsRole', 'administrator', { name: 'quality', role: 'physician' }],
  ['givePersonsCode', 'administrator', { name: 'quality' }],
  ['endPersonsSessions', 'administrator', { name: 'quality' }],
  ['disablePerson', 'administrator', { name: 'quality' }],
  // Who may not is refused by an entry of the log, too.
  ['disablePerson', 'navigator', { name: 'quality' }],
  ['recordCause', 'quality', { patientId: 'P1', rule: 'relapse-haemoglobin', cause: 'bleeding' }],
]
const withKey = (fields: Readonly<Record<string, string>>) => ('rule' in fields ? { ...fields, key } : fields)

test('while the log cannot be written, server actions are refused and change nothing', async () => {
  const before = stored()
  const logAgain = fillLog()
  try {
    for (const [name, role, fields] of ACTIONS) {
      const answer = await (await act(served, cookieOf(role), name, withKey(fields))).text()
      expect([name, role, answer]).toEqual([name, role, expect.stringContaining('"ok":false,"kind":"unavailable"')])
    }
  } finally {
    logAgain()
  }
  expect(stored()).toBe(before)
  const [name, role, fields] = ACTIONS[0] ?? expect.fail()
  expect(await (await act(served, cookieOf(role), name, withKey(fields))).text()).toContain('"ok":true')
  expect(await lawHolds(url, NOTHING, now())).toEqual([])
})

test('an upload of many parts, messages from the network and reviews at once: nothing acknowledged is lost', async () => {
  const large = fileOf('large', 1, 6_000)
  const sent = upload(served, cookieOf('navigator'), large).then((answer) => answer.text())
  const port = await freePort()
  const listening = spawn(process.execPath, [await bundled('lib/cli/main.ts'), 'listen', '--port', String(port), '--source', 'laboratories'], {
    env: { ...process.env, DATABASE_URL: url },
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  while (!String((await once(listening.stderr, 'data'))[0]).includes('Listening on')) expect(listening.exitCode).toBe(null)
  const sender = startChild('sending.ts', String(port), 'EAST', '25')
  const notes: string[] = []
  for (let n = 0; n < 12; n++) {
    const note = `together ${n}`
    const fields = { patientId: 'P1', rule: 'relapse-haemoglobin', key, did: 'seen', note, bringBackOn: '' }
    const answer = await (await act(served, cookieOf('navigator'), 'answerFinding', fields)).text()
    if (answer.includes('"ok":true')) notes.push(note)
  }
  expect(notes).toHaveLength(12)
  expect(await sender.ended).toBe(0)
  listening.kill('SIGTERM')
  await once(listening, 'exit')
  expect(await sent).toContain('"ok":true')
  const db = fromOutside(url, { reading: true })
  const messages = db.all<{ sha256: string; rows: number }>("SELECT sha256, rows_read AS rows FROM intake_file WHERE source = 'laboratories'")
  expect(db.value('SELECT count(*) FROM hl7_message')).toBe(25)
  db.close()
  const acknowledged = {
    files: [{ sha256: createHash('sha256').update(large.bytes).digest('hex'), rows: 6_000 }, ...messages],
    reviews: notes.map((note) => ({ patientId: 'P1', note })),
  }
  expect(await lawHolds(url, acknowledged, now())).toEqual([])
})
