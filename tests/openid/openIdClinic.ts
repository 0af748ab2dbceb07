import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { json, lowmark, type Ran } from '../cli/terminal.ts'
import { type Clinic, openClinic } from '../pages/clinic.ts'
import { fromOutside, type Outside } from '../store/outside.ts'
import { openStage, type Stage } from './stage.ts'
import { startProvider } from './startProvider.ts'
import { Traveller } from './traveller.ts'

export const CLIENT_SECRET = 'a secret of the tests that both sides know'
const CLIENT_ID = 'lowmark-tests'
const FAILED = '/sign-in?single-sign-on=failed'

interface LogRow {
  readonly actor: string
  readonly role: string
  readonly outcome: string
  readonly event: string
}

/** A served clinic with single sign-on: the product, the stage and the provider behind it, and what its database holds. */
export class OpenIdClinic {
  readonly clinic: Clinic
  readonly stage: Stage
  readonly database: Outside

  constructor(clinic: Clinic, stage: Stage) {
    this.clinic = clinic
    this.stage = stage
    this.database = fromOutside(clinic.databaseUrl, { reading: true })
  }

  url(): string {
    return this.clinic.url
  }

  sessions(): number {
    return this.database.value<number>('SELECT count(*) FROM session') ?? 0
  }

  rows(): number {
    return this.database.value<number>('SELECT count(*) FROM trail') ?? 0
  }

  lastRow(): LogRow {
    return this.database.get('SELECT actor, role, outcome, event FROM trail ORDER BY sequence DESC') as LogRow
  }

  account(...words: string[]): Promise<Ran> {
    return lowmark(this.clinic.databaseUrl, 'account', ...words)
  }

  async newCode(name: string, role: Role): Promise<string> {
    return json<{ code: string }>(await this.account('add', '--name', name, '--role', role, '--json')).code
  }

  /** A new account joined to a subject, and whoever joined it, signed in. */
  async joined(name: string, role: Role, subject: string): Promise<Traveller> {
    const code = await this.newCode(name, role)
    const person = new Traveller()
    expect((await person.signIn(this.url(), subject, { name, code })).headers.get('location')).toBe('/')
    return person
  }

  /** Refused like everything else: back to the sign-in page, no session row, one row in the log with a word of ours. */
  async refuses(because: string, come: () => Promise<Response>): Promise<void> {
    const before = [this.sessions(), this.rows()] as const
    const answer = await come()
    expect([answer.status, answer.headers.get('location')]).toEqual([303, FAILED])
    expect(answer.headers.getSetCookie().join('\n')).not.toContain('lowmark.session')
    expect([this.sessions(), this.rows()]).toEqual([before[0], before[1] + 1])
    const { outcome, event } = this.lastRow()
    expect([outcome, JSON.parse(event)]).toMatchObject(['failure', { action: 'sign-in', outcome: 'failure', by: 'provider', because }])
  }

  /** Ends what `openOpenIdClinic` began. */
  close: () => Promise<void> = () => Promise.resolve()
}

export async function openOpenIdClinic(): Promise<OpenIdClinic> {
  const folder = mkdtempSync(join(tmpdir(), 'lowmark-openid-'))
  const secretFile = join(folder, 'secret')
  writeFileSync(secretFile, `${CLIENT_SECRET}\n`, { mode: 0o600 })
  const stage = await openStage()
  Object.assign(process.env, {
    LOWMARK_OIDC_ISSUER: stage.issuer,
    LOWMARK_OIDC_CLIENT_ID: CLIENT_ID,
    LOWMARK_OIDC_CLIENT_SECRET_FILE: secretFile,
    LOWMARK_OIDC_NAME: 'Clinic account',
    TEST_PATIENTS: '4',
  })
  const clinic = await openClinic()
  const redirect = `${clinic.url}/api/auth/callback/openid`
  const provider = await startProvider({ ISSUER: stage.issuer, CLIENT_ID, CLIENT_SECRET, REDIRECT_URI: redirect })
  stage.lead(provider.port)
  const open = new OpenIdClinic(clinic, stage)
  open.close = async () => {
    open.database.close()
    provider.stop()
    await clinic.close()
    await stage.close()
    rmSync(folder, { recursive: true, force: true })
  }
  return open
}
