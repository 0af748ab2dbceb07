import { createHash } from 'node:crypto'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Role } from '../../lib/access/index.ts'
import { activate, addAccount, changeRole, disableAccount } from '../../lib/usecases/index.ts'
import { fromOutside } from '../store/outside.ts'
import { type Clinic, enter, signedInAs, textOf, visit } from './clinic.ts'
import { fits } from './fits.ts'
import { beside, endRows, HOUR_MS, letPass, MINUTE_MS } from './ownSession.ts'
import { sendAgain } from './sendAgain.ts'

const PASSWORD = 'nine quiet herons walk'
const EXPORT = { method: 'POST', path: '/list/export' } as const

const cookieText = (cookies: readonly { name: string; value: string }[]) => cookies.map(({ name, value }) => `${name}=${value}`).join('; ')

/** What an open page finds at its next request, whatever it asks: a page, a route handler, the session itself. */
async function found(clinic: Clinic, cookie: string): Promise<{ page: number; route: number; open: boolean }> {
  const headers = { cookie, origin: clinic.url }
  const page = await fetch(`${clinic.url}/rules`, { headers, redirect: 'manual' })
  const route = await fetch(clinic.url + EXPORT.path, { method: EXPORT.method, headers })
  await route.body?.cancel()
  const session = (await (await fetch(`${clinic.url}/session`, { headers })).json()) as { open: boolean }
  return { page: page.status, route: route.status, open: session.open }
}

const IN = { page: 200, route: 200, open: true }
const OUT = { page: 307, route: 403, open: false }

function sessionIds(clinic: Clinic, name: string): string[] {
  const db = fromOutside(clinic.databaseUrl, { reading: true })
  const sql = 'SELECT session.id FROM session JOIN account ON account.id = account_id WHERE name = ? ORDER BY session.created_at'
  const ids = db.all<{ id: string }>(sql, name)
  db.close()
  return ids.map(({ id }) => id)
}

/** The server alone decides whether a session holds, at every request, whoever sends it and whatever a browser believes. */
export function sessionDoors(clinic: () => Clinic): void {
  async function person(name: string, role: Role): Promise<void> {
    await beside(clinic(), async (_, call) => {
      const added = await addAccount(call, { name, role })
      if (!added.ok) throw new Error(added.reason)
      const chosen = await activate(call, { name, code: added.value.code, password: PASSWORD })
      if (!chosen.ok) throw new Error(chosen.reason)
    })
  }
  async function inSession(name: string) {
    const visitor = await visit(clinic())
    await enter(visitor.page, name, PASSWORD)
    await visitor.page.waitForURL((url) => url.pathname !== '/sign-in' && url.pathname !== '/')
    return { ...visitor, cookie: cookieText(await visitor.context.cookies()) }
  }

  describe('a session at the server', { timeout: 240_000 }, () => {
    beforeAll(async () => {
      for (const name of ['becomes-quality', 'is-disabled', 'stays-idle', 'stays-long', 'moves-away', 'fixed']) await person(name, 'navigator')
      await person('begins-a-trial', 'physician')
    })

    it.each([
      ['becomes-quality', (name: string) => beside(clinic(), (_, call) => changeRole(call, { name, role: 'quality' })), 'a change of role'],
      ['is-disabled', (name: string) => beside(clinic(), (_, call) => disableAccount(call, { name })), 'disabling'],
      ['moves-away', async (name: string) => endRows(clinic(), name), 'ending the row, for a copied cookie too'],
    ] as const)('%s: ends with the next request (page, route, action)', async (name, change, _) => {
      const { page, context, cookie } = await inSession(name)
      await page.goto('/account')
      await page.waitForLoadState('networkidle')
      const other = await inSession(name)
      await page.reload()
      const sent = page.waitForRequest((request) => request.method() === 'POST' && request.url().endsWith('/account'))
      await page.getByRole('button', { name: 'End all others' }).click()
      const request = await sent
      await page.getByText('All others have ended.').waitFor()
      expect(await found(clinic(), other.cookie)).toEqual(OUT)
      expect(await found(clinic(), cookie)).toEqual(IN)
      // The same action sent by a program is answered while the session holds, and refused from the moment it does not.
      const cookies = await context.cookies()
      const again = () => sendAgain(request, { cookies, origin: clinic().url })
      expect(await again()).toContain('There is no other open session of yours.')
      await change(name)
      expect(await again()).toContain('You are signed out.')
      expect(await found(clinic(), cookie)).toEqual(OUT)
      await context.close()
      await other.context.close()
    })

    it('ends after 15 minutes without a sign of life, and a sign of life sent afterwards revives nothing', async () => {
      const { context, cookie } = await inSession('stays-idle')
      letPass(clinic(), 'stays-idle', { idleMs: 15 * MINUTE_MS - 5000 })
      const alive = (origin = clinic().url) => fetch(`${clinic().url}/session`, { method: 'POST', headers: { cookie, origin } })
      // Asking is no sign of life, and a sign that comes from elsewhere is none either.
      const asked = (await (await fetch(`${clinic().url}/session`, { headers: { cookie } })).json()) as { idleMs: number }
      expect(asked.idleMs).toBeLessThan(5000)
      expect((await alive('https://elsewhere.example')).status).toBe(403)
      letPass(clinic(), 'stays-idle', { idleMs: 15 * MINUTE_MS })
      expect(await (await alive()).json()).toEqual({ open: false })
      expect(await found(clinic(), cookie)).toEqual(OUT)
      await context.close()
    })

    it('ends 12 hours after signing in, however alive it is', async () => {
      const { context, cookie } = await inSession('stays-long')
      letPass(clinic(), 'stays-long', { idleMs: 0, ageMs: 12 * HOUR_MS - 20_000 })
      expect(await found(clinic(), cookie)).toEqual(IN)
      letPass(clinic(), 'stays-long', { idleMs: 0, ageMs: 12 * HOUR_MS })
      expect(await found(clinic(), cookie)).toEqual(OUT)
      await context.close()
    })

    it('is a new one at every sign-in, whatever cookie was there before; signed out, a copy of it opens nothing', async () => {
      const first = await inSession('fixed')
      const planted = await first.context.cookies()
      const second = await visit(clinic())
      // The second browser begins with the first one's cookie, as after an attack by fixation, signs out and in.
      await second.context.addCookies(planted)
      await second.page.goto('/rules')
      await second.page.getByRole('button', { name: 'Sign out' }).click()
      await second.page.waitForURL('**/sign-in')
      expect(await found(clinic(), first.cookie)).toEqual(OUT)
      await second.context.addCookies(planted)
      await enter(second.page, 'fixed', PASSWORD)
      await second.page.waitForURL('**/list')
      const cookie = cookieText(await second.context.cookies())
      expect(await found(clinic(), cookie)).toEqual(IN)
      expect(await found(clinic(), first.cookie)).toEqual(OUT)
      const ids = sessionIds(clinic(), 'fixed')
      expect(new Set(ids).size).toBe(2)
      // Neither the number of the row nor what it is made from is in what the browser is given.
      for (const id of ids) expect(cookie).not.toContain(id)
      expect(ids).not.toContain(createHash('sha256').update(cookie).digest('hex'))
      await first.context.close()
      await second.context.close()
    })

    it('is logged with the address the trusted proxy tells, and with nothing a caller wrote into the header', async () => {
      const { context, cookie } = await inSession('fixed')
      const refused = async (forwarded: Record<string, string>) => {
        const answer = await fetch(`${clinic().url}/accounts`, { headers: { cookie, ...forwarded } })
        await answer.body?.cancel()
        const db = fromOutside(clinic().databaseUrl, { reading: true })
        const row = db.get<{ address: string }>("SELECT address FROM trail WHERE action = 'access-refused' ORDER BY sequence DESC")
        db.close()
        return [answer.status, row?.address]
      }
      expect(await refused({})).toEqual([403, '127.0.0.1'])
      expect(await refused({ 'x-forwarded-for': '10.66.66.66, 203.0.113.9' })).toEqual([403, '203.0.113.9'])
      expect(await refused({ 'x-forwarded-for': '10.66.66.66, nothing' })).toEqual([403, '127.0.0.1'])
      expect(await refused({ 'x-lowmark-address': '10.66.66.66', forwarded: 'for=10.66.66.66', 'x-real-ip': '10.66.66.66' })).toEqual([
        403,
        '127.0.0.1',
      ])
      await context.close()
    })

    it('that ends while a long answer is being worked out does not get the answer', async () => {
      const { context, cookie } = await inSession('begins-a-trial')
      await context.close()
      const form = async () => {
        const { page, context: own } = await inSession('begins-a-trial')
        await page.goto('/plan')
        await page.getByText('Set numbers otherwise, try them, propose them').click()
        const fields = await page
          .locator('form', { hasText: 'Why (kept with the version)' })
          .evaluate((element: HTMLFormElement) => [...new FormData(element).entries()])
        await own.close()
        return fields as [string, string][]
      }
      const body = new FormData()
      // Every two weeks, and none may be late: that changes somebody's window.
      const changed = new Map([
        ['treatment.0.every', '14'],
        ['grace.percent', '0'],
      ])
      for (const [field, value] of await form()) body.set(field, changed.get(field) ?? value)
      const tryIt = () => fetch(`${clinic().url}/plan/try`, { method: 'POST', headers: { cookie, origin: clinic().url }, body })
      const lastLine = (text: string) => text.trim().split('\n').at(-1) ?? ''
      const whole = lastLine(await (await tryIt()).text())
      expect(whole).toContain('"ok":true')
      const answer = await tryIt()
      expect(answer.status).toBe(200)
      endRows(clinic(), 'begins-a-trial')
      const cut = await answer.text()
      expect(lastLine(cut)).toContain('You were signed out meanwhile. Nothing was changed. Sign in and try again.')
      const named = [...whole.matchAll(/"patientId":"([^"]+)"/g)].map(([, id]) => id ?? '')
      expect(named.length).toBeGreaterThan(0)
      for (const id of named) expect(cut).not.toContain(id)
    })
  })

  describe('where one is signed in', { timeout: 240_000 }, () => {
    it('is seen by a person, who ends one; and by the administrator, who ends another', async () => {
      const { name } = clinic().signInOf('physician')
      const [one, two, three] = [
        await signedInAs(clinic(), 'physician'),
        await signedInAs(clinic(), 'physician'),
        await signedInAs(clinic(), 'physician'),
      ]
      await three.page.goto('/account')
      await three.page.waitForLoadState('networkidle')
      const rows = three.page.getByRole('form', { name: 'Your open sessions' }).locator('tbody tr')
      expect(await rows.count()).toBe(3)
      expect(await textOf(rows.first())).toMatch(/this session$/)
      expect(await textOf(rows.last())).toMatch(/^\d{4}-.* UTC.* UTC127\.0\.0\.1End the session begun/)
      await fits(three.page, 'account-sessions')
      await rows.last().getByRole('button').click()
      await three.page.getByText('Ended.').waitFor()
      await expect.poll(() => rows.count()).toBe(2)
      await one.page.goto('/list')
      expect(new URL(one.page.url()).pathname).toBe('/sign-in')

      const admin = await signedInAs(clinic(), 'administrator')
      const account = admin.page.getByRole('row', { name: new RegExp(`^${name}`) })
      await account.getByText('2 sessions').click()
      await fits(admin.page, 'accounts-sessions')
      await account
        .getByRole('button', { name: /^End the session/ })
        .last()
        .click()
      await account.getByText('1 session', { exact: false }).first().waitFor()
      await two.page.goto('/list')
      expect(new URL(two.page.url()).pathname).toBe('/sign-in')
      await three.page.goto('/list')
      expect(new URL(three.page.url()).pathname).toBe('/list')
      await admin.page.goto('/log')
      expect(await textOf(admin.page.locator('tbody'))).toContain(`1 session of ${name} ended.`)
      expect([...three.complaints, ...admin.complaints]).toEqual([])
      for (const { context } of [one, two, three, admin]) await context.close()
    })
  })
}
