import { type ChildProcess, spawn, spawnSync } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import { chmodSync, chownSync, existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { buildPages } from '../../.ci/build.ts'

const NOBODY = 65_534
// Only inside its own mount namespace is the folder read-only; the first line proves that it is.
const CONFINED = `
mount --bind "$PROGRAM" "$PLACE" && mount -o remount,bind,ro "$PLACE" && cd "$PLACE" || exit 97
touch probe 2>/dev/null && exit 98
exec setpriv --reuid ${NOBODY} --regid ${NOBODY} --clear-groups --no-new-privs --bounding-set=-all --inh-caps=-all \
  env -i PATH=/usr/bin:/bin TMPDIR="$STATE/tmp" DATABASE_URL="file:$STATE/lowmark.db" NEXTAUTH_SECRET_FILE="$STATE/secret" LOWMARK_PSEUDONYM_KEY_FILE="$STATE/pseudonym-key" \
  NEXTAUTH_URL=https://lowmark.clinic.example PORT=0 "$NODE" --import tsx "$@"
`

const able = process.getuid?.() === 0 && spawnSync('unshare', ['--mount', 'true']).status === 0 && spawnSync('setpriv', ['--version']).status === 0
if (!able) process.stderr.write('NOT TESTED: the start without a right to write into the program, because it needs root, unshare and setpriv.\n')

let folder = ''
let state = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'lowmark-confined-'))
  chmodSync(folder, 0o755)
  state = join(folder, 'state')
  mkdirSync(join(folder, 'program'))
  mkdirSync(join(state, 'tmp'), { recursive: true })
  writeFileSync(join(state, 'secret'), 'only-for-tests-only-for-tests-only-for-tests\n', { mode: 0o400 })
  writeFileSync(join(state, 'pseudonym-key'), `${randomBytes(32).toString('hex')}\n`, { mode: 0o400 })
  for (const path of [state, join(state, 'tmp'), join(state, 'secret'), join(state, 'pseudonym-key')]) chownSync(path, NOBODY, NOBODY)
  chmodSync(state, 0o700)
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

/** Starts a script of the program as an account that owns nothing, with the program's folder read-only, no privilege, no HOME. */
function confined(script: string, words: readonly string[] = []): ChildProcess {
  const env = { PATH: process.env.PATH, PROGRAM: process.cwd(), PLACE: join(folder, 'program'), STATE: state, NODE: process.execPath }
  return spawn('unshare', ['--mount', '--propagation', 'private', 'sh', '-c', CONFINED, 'sh', script, ...words], {
    env: env as unknown as NodeJS.ProcessEnv,
    stdio: ['ignore', 'pipe', 'pipe'],
  })
}

function ended(child: ChildProcess): Promise<{ code: number | null; out: string; err: string }> {
  const said = { out: '', err: '' }
  child.stdout?.on('data', (part: Buffer) => (said.out += part.toString()))
  child.stderr?.on('data', (part: Buffer) => (said.err += part.toString()))
  return new Promise((resolve) => child.once('close', (code) => resolve({ code, ...said })))
}

function addressOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    if (child.stdout === null) return reject(new Error('no output to read'))
    createInterface({ input: child.stdout }).on('line', (line) => {
      const [, url] = /^Lowmark serves \S+ from (\S+)\.$/.exec(line) ?? []
      if (url !== undefined) resolve(url)
    })
    child.once('close', (code) => reject(new Error(`ended with ${code}`)))
  })
}

describe.runIf(able)('without a right to write into the program', { timeout: 240_000 }, () => {
  it('the first administrator is added, the pages are served, and SIGTERM ends it cleanly', async () => {
    expect(buildPages()).toBe(true)
    const added = await ended(confined('lib/cli/main.ts', ['account', 'add', '--role', 'administrator', '--name', 'first']))
    expect([added.code, added.err]).toEqual([0, ''])
    expect(added.out).toMatch(/[A-Z2-9]{4}(-[A-Z2-9]{4}){4}/)

    const server = confined('app/_server/serveClinic.ts')
    const end = ended(server)
    const url = await addressOf(server)
    const page = await fetch(`${url}/sign-in`)
    const html = await page.text()
    expect([page.status, html.includes('<h1>Sign in</h1>')]).toEqual([200, true])
    const [, built] = /"(\/_next\/static\/[^"]+\.css)"/.exec(html) ?? []
    expect((await fetch(url + built)).status).toBe(200)
    expect(await (await fetch(`${url}/session`)).json()).toEqual({ open: false })
    // Written by its owner, readable by nobody else; after the end the file alone is the whole database.
    expect(statSync(join(state, 'lowmark.db')).mode & 0o077).toBe(0)
    server.kill('SIGTERM')
    const { code, err } = await end
    expect([code, err]).toEqual([0, ''])
    expect(readdirSync(state).filter((name) => name.startsWith('lowmark.db'))).toEqual(['lowmark.db'])
    expect(existsSync('probe')).toBe(false)
  })
})
