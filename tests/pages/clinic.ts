import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { type Browser, type BrowserContext, chromium, type Locator, type Page } from 'playwright-core'
import { buildPages } from '../../.ci/build.ts'
import type { Role } from '../../lib/access/index.ts'
import { folderOf, freshUrl, takeAway } from '../store/freshStore.ts'
import { fromOutside } from '../store/outside.ts'

export interface SignIn {
  readonly role: Role
  readonly name: string
  readonly password: string
}

/** A served database of invented patients, and a browser before it. */
export interface Clinic {
  readonly url: string
  readonly databaseUrl: string
  /** What the server keeps beside its database. */
  readonly folder: string
  readonly browser: Browser
  /** Everything the server has written on its output. */
  readonly output: () => string
  readonly signInOf: (role: Role) => SignIn
  /** Everything the server has written to its output and its errors, but for the line that tells the sign-ins. */
  readonly said: () => string
  readonly close: () => Promise<void>
}

const QUIET = ['--no-sandbox', '--disable-background-networking', '--disable-component-update', '--disable-sync']

export function firstLine(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = ''
    child.stderr?.on('data', (part: Buffer) => {
      said += part.toString()
    })
    child.once('exit', (code) => reject(new Error(`The server ended with ${code}: ${said.slice(-2000)}`)))
    if (child.stdout === null) return reject(new Error('no output to read'))
    createInterface({ input: child.stdout }).on('line', (line) => {
      // Next.js writes a line of its own before ours.
      if (line.startsWith('{')) resolve(line)
    })
  })
}

export function serverEnvironment({ databaseUrl, folder }: Pick<Clinic, 'databaseUrl' | 'folder'>): NodeJS.ProcessEnv {
  const env: NodeJS.ProcessEnv = {
    ...process.env,
    NODE_ENV: 'production',
    DATABASE_URL: databaseUrl,
    NEXTAUTH_SECRET: 'only-for-tests-only-for-tests-only-for-tests',
    LOWMARK_LOG_HEAD_TO: join(folder, 'heads'),
    LOWMARK_HEALTH_TOKEN_FILE: join(folder, 'health-token'),
  }
  delete env.NEXTAUTH_URL
  return env
}

/** Builds the pages where needed, fills a fresh database, serves it in a process of its own and starts Chromium. */
export async function openClinic(): Promise<Clinic> {
  if (!buildPages()) throw new Error('The pages did not build.')
  const databaseUrl = freshUrl()
  const folder = folderOf(databaseUrl)
  const env = serverEnvironment({ databaseUrl, folder })
  const server = spawn(process.execPath, ['--import', 'tsx', 'tests/pages/serveForTests.ts'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  let output = ''
  for (const stream of [server.stdout, server.stderr]) {
    stream.on('data', (part: Buffer) => {
      output += part.toString()
    })
  }
  const { url, signIns } = JSON.parse(await firstLine(server)) as { url: string; signIns: readonly SignIn[] }
  const browser = await chromium.launch({ executablePath: '/usr/bin/chromium', args: QUIET })
  return {
    url,
    databaseUrl,
    folder,
    browser,
    output: () => output,
    signInOf(role) {
      const found = signIns.find((signIn) => signIn.role === role)
      if (found === undefined) throw new Error(`no sign-in for ${role}`)
      return found
    },
    said: () =>
      output
        .split('\n')
        .filter((line) => !line.startsWith('{"url"'))
        .join('\n'),
    async close() {
      await browser.close()
      const ended = new Promise((resolve) => server.once('exit', resolve))
      server.kill('SIGTERM')
      await ended
      takeAway(databaseUrl)
    },
  }
}

/** Serves the clinic's database once more, in a process that requires a second factor. `close` ends that process alone. */
export async function serveStrictly(clinic: Clinic): Promise<{ readonly url: string; readonly close: () => Promise<void> }> {
  const env: NodeJS.ProcessEnv = { ...serverEnvironment(clinic), LOWMARK_SECOND_FACTOR: 'required' }
  const server = spawn(process.execPath, ['--import', 'tsx', 'tests/pages/serveStrictly.ts'], { env, stdio: ['ignore', 'pipe', 'pipe'] })
  const { url } = JSON.parse(await firstLine(server)) as { url: string }
  return {
    url,
    async close() {
      const ended = new Promise((resolve) => server.once('exit', resolve))
      server.kill('SIGTERM')
      await ended
    },
  }
}

/** A person before the browser: the page, and everything its console complained about. */
export interface Visitor {
  readonly context: BrowserContext
  readonly page: Page
  readonly complaints: string[]
}

// The browser itself reports every 401, 403, 404 and 503; the tests ask for those and check them by status.
const ASKED_FOR = /^Failed to load resource: the server responded with a status of (401|403|404|503)/

export async function visit(clinic: Clinic, options: { colorScheme?: 'light' | 'dark'; javaScriptEnabled?: boolean } = {}): Promise<Visitor> {
  return anotherPage(await clinic.browser.newContext({ baseURL: clinic.url, ...options }))
}

/** One more page of somebody's browser, listened to like the first. */
export async function anotherPage(context: BrowserContext): Promise<Visitor> {
  const page = await context.newPage()
  // As the tests themselves: two browsers and two servers may share two slow cores.
  page.setDefaultTimeout(90_000)
  const complaints: string[] = []
  page.on('console', (message) => {
    if (['warning', 'error'].includes(message.type()) && !ASKED_FOR.test(message.text())) complaints.push(`${page.url()}: ${message.text()}`)
  })
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`))
  return { context, page, complaints }
}

export async function enter(page: Page, name: string, password: string, code = ''): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('Name').fill(name)
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByLabel(/^Code of your second factor/).fill(code)
  await page.getByRole('button', { name: 'Sign in' }).click()
}

/** Someone of this role, signed in and standing where that role's day begins. */
export async function signedInAs(clinic: Clinic, role: Role, options: { colorScheme?: 'light' | 'dark' } = {}): Promise<Visitor> {
  const visitor = await visit(clinic, options)
  const { name, password } = clinic.signInOf(role)
  await enter(visitor.page, name, password)
  await visitor.page.waitForURL((url) => url.pathname !== '/sign-in' && url.pathname !== '/')
  return visitor
}

/** The text of one element, shown or not. */
export async function textOf(element: Locator): Promise<string> {
  return (await element.textContent()) ?? ''
}

/** The path of a patient's page, as the links of the list have it. */
export function patientPath({ databaseUrl }: Pick<Clinic, 'databaseUrl'>, patientId: string): string {
  const db = fromOutside(databaseUrl, { reading: true })
  const row = db.get<{ address: string }>('SELECT address FROM patient_address WHERE patient_id = ?', patientId)
  db.close()
  if (row === undefined) throw new Error(`nobody has the identifier ${patientId}`)
  return `/patients/${row.address}`
}

/** The number of the patient whose page a link leads to. */
export function patientAt({ databaseUrl }: Pick<Clinic, 'databaseUrl'>, href: string | null): string {
  const db = fromOutside(databaseUrl, { reading: true })
  const row = db.get<{ id: string }>('SELECT patient_id AS id FROM patient_address WHERE address = ?', href?.split('/').at(-1) ?? '')
  db.close()
  if (row === undefined) throw new Error(`nobody is at ${href}`)
  return row.id
}
