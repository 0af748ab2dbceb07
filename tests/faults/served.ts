import { spawn } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { setTimeout as pause } from 'node:timers/promises'
import { buildPages } from '../../.ci/build.ts'
import { ROLES } from '../../lib/access/index.ts'
import { openStore } from '../../lib/store/index.ts'
import { addPerson, PASSWORD } from '../usecases/accounts/persons.ts'
import { type Child, follow } from './child.ts'
import { findingKey } from './clinicWork.ts'

/** A server in a process of its own. */
export interface Served {
  readonly url: string
  readonly child: Child
  readonly stop: () => Promise<void>
}

const SECRET = 'only-for-tests-only-for-tests-only-for-tests'

/** Gives a small clinic an account a role, each of the role's name, and answers the key of P1's finding. */
export async function withPeople(databaseUrl: string): Promise<string> {
  const store = await openStore(databaseUrl)
  for (const role of ROLES) await addPerson(store, role, role)
  const key = await findingKey(store)
  await store.close()
  return key
}

/** Serves a database. The pages are built first where they are not. */
export async function serveClinic(databaseUrl: string): Promise<Served> {
  if (!buildPages()) throw new Error('The pages did not build.')
  const env: NodeJS.ProcessEnv = { ...process.env, NODE_ENV: 'production', DATABASE_URL: databaseUrl, NEXTAUTH_SECRET: SECRET }
  delete env.NEXTAUTH_URL
  const child = follow(spawn(process.execPath, ['--import', 'tsx', 'tests/faults/serving.ts'], { env, stdio: ['ignore', 'pipe', 'pipe'] }))
  child.process.stderr?.resume()
  const address = () => child.lines.find((line) => line.startsWith('address '))
  while (address() === undefined) {
    if (child.process.exitCode !== null) throw new Error('The server did not start.')
    await pause(10)
  }
  const stop = async (): Promise<void> => {
    child.process.kill('SIGTERM')
    await child.ended
  }
  return { url: address()?.slice('address '.length) ?? '', child, stop }
}

const cookiesOf = (answer: Response): string[] => answer.headers.getSetCookie().map((cookie) => cookie.split(';')[0] ?? '')

/** Signs in as a browser does and answers the cookies; throws where it is refused. */
export async function signInOver({ url }: Served, name: string): Promise<string> {
  const asked = await fetch(`${url}/api/auth/csrf`)
  const { csrfToken } = (await asked.json()) as { csrfToken: string }
  const form = new URLSearchParams({ csrfToken, name, password: PASSWORD, json: 'true' })
  const headers = { cookie: cookiesOf(asked).join('; '), origin: url }
  const answer = await fetch(`${url}/api/auth/callback/credentials`, { method: 'POST', body: form, headers, redirect: 'manual' })
  const cookies = cookiesOf(answer)
  if (!cookies.some((cookie) => cookie.startsWith('__Host-lowmark.session=')))
    throw new Error(`not signed in: ${answer.status} ${await answer.text()}`)
  return [...cookiesOf(asked), ...cookies].join('; ')
}

/** A page as a browser that is signed in asks for it; it is not led elsewhere. */
export function page({ url }: Served, cookie: string, path: string): Promise<Response> {
  return fetch(`${url}${path}`, { headers: { cookie }, redirect: 'manual' })
}

/** Sends a file as the intake page does. */
export function upload({ url }: Served, cookie: string, file: { readonly name: string; readonly bytes: Uint8Array }): Promise<Response> {
  const files = encodeURIComponent(JSON.stringify([{ name: file.name, size: file.bytes.byteLength }]))
  const headers = { cookie, origin: url, 'x-lowmark-files': files, 'x-lowmark-source': 'tests', 'x-lowmark-dry-run': 'no' }
  return fetch(`${url}/intake/upload`, { method: 'POST', headers, body: Buffer.from(file.bytes) })
}

type Manifest = Readonly<
  Record<'node', Readonly<Record<string, { readonly exportedName: string; readonly workers: Readonly<Record<string, unknown>> }>>>
>

/** A built server action: its name, its number, and the address of a page it stands on, for P1 where that is a patient's. */
function builtAction(name: string): { readonly id: string; readonly on: string } {
  const { node } = JSON.parse(readFileSync('.next/server/server-reference-manifest.json', 'utf8')) as Manifest
  const found = Object.entries(node).find(([, { exportedName }]) => exportedName === name)
  if (found === undefined) throw new Error(`no action is called ${name}`)
  const [id, { workers }] = found
  const page = Object.keys(workers).find((worker) => worker.startsWith('app/') && !worker.includes('_not-found')) ?? ''
  return { id, on: page.slice('app'.length, -'/page'.length).replace('[patientId]', 'P1') }
}

/** Sends a form to a server action as React does: the form is its last argument, after the answer before where it takes one. */
export function act({ url }: Served, cookie: string, name: string, fields: Readonly<Record<string, string>>): Promise<Response> {
  const { id, on } = builtAction(name)
  const body = new FormData()
  for (const [field, value] of Object.entries(fields)) body.set(`_1_${field}`, value)
  // The first byte of an action's number tells how many arguments it takes: six bits from the second on, a bit each.
  const takesTwo = (Number.parseInt(id.slice(0, 2), 16) & 0b0010_0000) !== 0
  body.set('0', takesTwo ? '[null,"$K1"]' : '["$K1"]')
  return fetch(`${url}${on}`, { method: 'POST', headers: { cookie, origin: url, 'next-action': id, accept: 'text/x-component' }, body })
}
